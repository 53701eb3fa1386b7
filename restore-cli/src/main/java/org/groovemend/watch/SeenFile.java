package org.groovemend.watch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Instant;

/**
 * A file as it stood at a moment.
 *
 * @param bytes its size
 * @param modified when it was last written, as the file system says
 * @param key what the file system knows it by whatever its name; null where it does not tell
 */
public record SeenFile(long bytes, Instant modified, Object key) {

  /**
   * A file as it stands now.
   *
   * @throws IOException if it is not there or the system does not tell
   */
  public static SeenFile of(Path file) throws IOException {
    return of(Files.readAttributes(file, BasicFileAttributes.class));
  }

  static SeenFile of(BasicFileAttributes file) {
    return new SeenFile(file.size(), file.lastModifiedTime().toInstant(), file.fileKey());
  }

  /** Whether this is the same file, unchanged, under whatever name; false where nobody knows. */
  boolean sameContent(SeenFile other) {
    return key != null && equals(other);
  }
}
