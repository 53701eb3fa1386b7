package org.groovemend.tags;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.groovemend.audio.InputRejectedException;

/**
 * A picture of the label or sleeve, JPEG or PNG, as it stands in its file.
 *
 * @param bytes the file; not to be changed
 * @param shape what its headers say
 */
public record Cover(byte[] bytes, PictureShape shape) {

  /** A block of FLAC holds less than 16 MiB; some room is left for its header. */
  public static final int MAX_BYTES = 16_000_000;

  private static final String REMEDY = "give a JPEG or PNG picture of less than 16 MB";

  /**
   * Reads a picture.
   *
   * @throws InputRejectedException if it is missing, too large, no JPEG or PNG, or not whole
   */
  public static Cover read(Path file) throws IOException {
    if (!Files.isRegularFile(file)) {
      throw new InputRejectedException(
          file, "", "there is no such picture", "check the name and the folder");
    }
    byte[] bytes;
    try (InputStream in = Files.newInputStream(file)) {
      bytes = in.readNBytes(MAX_BYTES + 1);
    }
    if (bytes.length > MAX_BYTES) {
      throw new InputRejectedException(file, "", "the picture is too large", REMEDY);
    }
    try {
      return of(bytes);
    } catch (IllegalArgumentException e) {
      throw new InputRejectedException(file, "", e.getMessage(), REMEDY);
    }
  }

  /**
   * Takes a picture from memory.
   *
   * @throws IllegalArgumentException if it is none, without full stop
   */
  public static Cover of(byte[] bytes) {
    return new Cover(bytes.clone(), PictureShape.of(bytes));
  }

  /** "image/jpeg" or "image/png". */
  public String mimeType() {
    return shape.mimeType();
  }
}
