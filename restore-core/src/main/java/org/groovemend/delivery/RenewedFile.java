package org.groovemend.delivery;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A small file that is written again and again. Whoever is killed at any moment leaves it as it was
 * before or as it is after, never half and never gone; {@link OutputSet}, which keeps several files
 * together, has a moment without either.
 */
public final class RenewedFile {

  private RenewedFile() {}

  /** Writes the file anew; when it returns, the bytes are on the disk. */
  public static void write(Path file, byte[] bytes) throws IOException {
    write(file, bytes, new DiskSteps());
  }

  static void write(Path file, byte[] bytes, FileSteps steps) throws IOException {
    Path target = file.toAbsolutePath();
    Path next = target.resolveSibling(OutputSet.PREFIX + target.getFileName());
    try {
      // left by somebody who was killed
      Files.deleteIfExists(next);
      try (OutputStream out = steps.create(next)) {
        out.write(bytes);
      }
      steps.force(next);
      steps.replace(next, target);
      steps.forceFolder(target.getParent());
    } catch (IOException e) {
      IOException told = WriteTrouble.explain(e, target);
      try {
        Files.deleteIfExists(next);
      } catch (IOException left) {
        told.addSuppressed(left);
      }
      throw told;
    }
  }
}
