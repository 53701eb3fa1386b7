package org.groovemend.job.proof;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Set;
import org.groovemend.audio.FilePath;
import org.groovemend.delivery.OutputSet;
import org.groovemend.signing.KeyFiles;
import org.groovemend.signing.SigningKey;
import org.groovemend.signing.VouchingKey;

/** Makes a pair of keys. */
public final class MakeKey {

  private static final Set<PosixFilePermission> OWNER_ONLY =
      PosixFilePermissions.fromString("rw-------");

  private MakeKey() {}

  /**
   * @param privateFile for its owner alone
   * @param publicFile to be given away
   * @param key its public half
   */
  public record Outcome(Path privateFile, Path publicFile, VouchingKey key) {}

  /**
   * Writes NAME.private.pem, which its owner alone may read, and NAME.public.pem; both or none. A
   * key that is there is never written over.
   *
   * @param name path without the endings
   * @param passphraseOrNull under which the private key is encrypted
   * @throws org.groovemend.delivery.OutputExistsException if one of the files exists
   */
  public static Outcome run(Path name, char[] passphraseOrNull) throws IOException {
    Path base = name.toAbsolutePath();
    String stem = FilePath.name(base);
    String secret = stem + ".private.pem";
    String open = stem + ".public.pem";
    SigningKey key = SigningKey.generate();
    try (OutputSet outputs = OutputSet.open(FilePath.folder(base), List.of(secret, open), false)) {
      ownersAlone(outputs.temporary(secret));
      Files.writeString(
          outputs.temporary(secret),
          KeyFiles.privateText(key, passphraseOrNull),
          StandardCharsets.US_ASCII,
          StandardOpenOption.WRITE);
      Files.writeString(outputs.temporary(open), key.vouching().pem(), StandardCharsets.US_ASCII);
      outputs.commit();
    }
    return new Outcome(base.resolveSibling(secret), base.resolveSibling(open), key.vouching());
  }

  /** Made empty with its permissions, so that there is no moment at which others could read it. */
  private static void ownersAlone(Path file) throws IOException {
    if (Files.getFileStore(FilePath.folder(file)).supportsFileAttributeView("posix")) {
      Files.createFile(file, PosixFilePermissions.asFileAttribute(OWNER_ONLY));
      return;
    }
    Files.createFile(file);
    var old = file.toFile();
    boolean done =
        old.setReadable(false, false)
            && old.setWritable(false, false)
            && old.setReadable(true, true)
            && old.setWritable(true, true);
    if (!done) {
      throw new IOException(
          "this disk cannot keep a file for its owner alone; nothing was written. Choose another"
              + " folder for the key.");
    }
  }
}
