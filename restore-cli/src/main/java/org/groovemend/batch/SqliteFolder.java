package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;

/**
 * Where the SQLite driver unpacks its native library. It takes the file away when the process ends,
 * but a process that is killed leaves it: they are swept here.
 */
final class SqliteFolder {

  /** An unpacked library is loaded within moments; once loaded, its file is not needed. */
  private static final Duration OLD = Duration.ofMinutes(10);

  private static final String PROPERTY = "org.sqlite.tmpdir";

  private SqliteFolder() {}

  /** Called before the driver is used first. */
  static synchronized void prepare() {
    if (System.getProperty(PROPERTY) != null) {
      return;
    }
    try {
      Path folder = ownFolder();
      sweep(folder, Instant.now().minus(OLD));
      System.setProperty(PROPERTY, folder.toString());
    } catch (IOException e) {
      // the driver then uses the folder for temporary files itself
    }
  }

  private static Path ownFolder() throws IOException {
    Path temporary = Path.of(System.getProperty("java.io.tmpdir"));
    String user = System.getProperty("user.name", "user");
    Path folder = temporary.resolve("groovemend-sqlite-" + user.replaceAll("\\W", "_"));
    boolean posix = temporary.getFileSystem().supportedFileAttributeViews().contains("posix");
    FileAttribute<?>[] forOwner =
        posix
            ? new FileAttribute<?>[] {
              PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------"))
            }
            : new FileAttribute<?>[0];
    if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      return Files.createDirectory(folder, forOwner);
    }
    // a folder that somebody else has put there could hold somebody else's library
    Path probe = Files.createTempFile(folder, "owner", "");
    try {
      boolean ours =
          Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)
              && Files.getOwner(folder, LinkOption.NOFOLLOW_LINKS).equals(Files.getOwner(probe));
      return ours ? folder : Files.createTempDirectory(temporary, "groovemend-sqlite-");
    } finally {
      Files.deleteIfExists(probe);
    }
  }

  static void sweep(Path folder, Instant before) throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "sqlite-*")) {
      for (Path file : files) {
        if (Files.getLastModifiedTime(file, LinkOption.NOFOLLOW_LINKS)
            .toInstant()
            .isBefore(before)) {
          Files.deleteIfExists(file);
        }
      }
    }
  }
}
