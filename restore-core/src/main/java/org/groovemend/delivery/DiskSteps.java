package org.groovemend.delivery;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** The real file system. */
final class DiskSteps implements FileSteps {

  @Override
  public void createFolder(Path folder) throws IOException {
    Files.createDirectory(folder);
  }

  @Override
  public Path createHiddenFolder(Path parent, String prefix) throws IOException {
    return Files.createTempDirectory(parent, prefix);
  }

  @Override
  public OutputStream create(Path file) throws IOException {
    return Files.newOutputStream(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
  }

  @Override
  public void force(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  @Override
  public void forceFolder(Path folder) throws IOException {
    // Only POSIX systems open a folder; others store its entries by themselves.
    if (folder.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
        channel.force(true);
      }
    }
  }

  @Override
  public void move(Path from, Path to) throws IOException {
    // a rename in one step would silently replace what is there
    if (Files.exists(to, LinkOption.NOFOLLOW_LINKS)) {
      throw new OutputExistsException(to);
    }
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(from, to);
    }
  }

  @Override
  public void replace(Path from, Path to) throws IOException {
    Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  @Override
  public void delete(Path path) throws IOException {
    Files.deleteIfExists(path);
  }
}
