package org.groovemend.tags;

import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32;
import org.groovemend.audio.Words;

/**
 * What the headers of a JPEG or PNG picture say. The headers are followed to the end, so that a
 * picture that breaks off is found; the picture itself is not decoded.
 *
 * @param mimeType "image/jpeg" or "image/png"
 * @param width in picture elements
 * @param height in picture elements
 * @param bitsPerPixel of all colours together
 * @param indexedColours entries of a palette, 0 if there is none
 * @see <a href="https://www.w3.org/TR/png-3/">PNG, section 5</a>; JPEG: ITU-T T.81, Annex B
 */
public record PictureShape(
    String mimeType, int width, int height, int bitsPerPixel, int indexedColours) {

  private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
  private static final String BREAKS_OFF = "the picture breaks off before its end";

  /**
   * Reads the headers.
   *
   * @throws IllegalArgumentException if it is not a whole JPEG or PNG, without full stop
   */
  static PictureShape of(byte[] bytes) {
    boolean png = bytes.length >= PNG.length;
    for (int i = 0; png && i < PNG.length; i++) {
      png = bytes[i] == PNG[i];
    }
    PictureShape shape;
    if (png) {
      shape = png(bytes);
    } else if (bytes.length > 3 && u8(bytes, 0) == 0xff && u8(bytes, 1) == 0xd8) {
      shape = jpeg(bytes);
    } else {
      throw new IllegalArgumentException("it is neither a JPEG nor a PNG picture");
    }
    if (shape.width < 1 || shape.height < 1) {
      throw new IllegalArgumentException("the picture has no width or no height");
    }
    return shape;
  }

  private static PictureShape png(byte[] b) {
    int at = PNG.length;
    PictureShape shape = null;
    int palette = 0;
    while (at + 12 <= b.length) {
      long size = Words.getBigEndian(b, at, 4) & 0xffff_ffffL;
      if (size > b.length - at - 12) {
        break;
      }
      String name = new String(b, at + 4, 4, StandardCharsets.ISO_8859_1);
      CRC32 crc = new CRC32();
      crc.update(b, at + 4, (int) size + 4);
      if (crc.getValue() != (Words.getBigEndian(b, at + 8 + (int) size, 4) & 0xffff_ffffL)) {
        throw new IllegalArgumentException("the picture is damaged: a checksum does not hold");
      }
      if (shape == null) {
        if (!name.equals("IHDR") || size != 13) {
          throw new IllegalArgumentException("the picture does not begin with its header");
        }
        shape = header(b, at + 8);
      } else if (name.equals("PLTE")) {
        palette = (int) size / 3;
      } else if (name.equals("IEND")) {
        return new PictureShape(
            shape.mimeType, shape.width, shape.height, shape.bitsPerPixel, palette);
      }
      at += (int) size + 12;
    }
    throw new IllegalArgumentException(BREAKS_OFF);
  }

  private static PictureShape header(byte[] b, int at) {
    int channels =
        switch (u8(b, at + 9)) {
          case 2 -> 3;
          case 4 -> 2;
          case 6 -> 4;
          default -> 1;
        };
    return new PictureShape(
        "image/png",
        (int) Words.getBigEndian(b, at, 4),
        (int) Words.getBigEndian(b, at + 4, 4),
        channels * u8(b, at + 8),
        0);
  }

  private static PictureShape jpeg(byte[] b) {
    int last = b.length;
    // some cameras and programs fill up behind the end marker
    while (last > 1 && !(u8(b, last - 2) == 0xff && u8(b, last - 1) == 0xd9)) {
      last--;
    }
    int at = 2;
    while (at + 4 <= last) {
      if (u8(b, at) != 0xff) {
        throw new IllegalArgumentException("the picture is damaged: no marker at byte " + at);
      }
      int marker = u8(b, at + 1);
      if (marker == 0xff) {
        at++;
        continue;
      }
      int size = u16(b, at + 2);
      // start of frame: C0 to CF but for tables (C4, CC) and an extension (C8)
      boolean frame =
          marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
      if (frame && at + 10 <= last) {
        return new PictureShape(
            "image/jpeg", u16(b, at + 7), u16(b, at + 5), u8(b, at + 4) * u8(b, at + 9), 0);
      }
      at += 2 + size;
    }
    throw new IllegalArgumentException(BREAKS_OFF);
  }

  private static int u8(byte[] b, int at) {
    return b[at] & 0xff;
  }

  private static int u16(byte[] b, int at) {
    return u8(b, at) << 8 | u8(b, at + 1);
  }
}
