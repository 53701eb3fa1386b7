package org.groovemend.report;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.awt.image.IndexColorModel;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/**
 * A drawing surface of indexed colours; x to the right, y down, coordinates outside are left out.
 */
final class Sheet {

  /** Indices of the fixed colours. */
  static final int PAPER = 0;

  static final int INK = 1;
  static final int MUTED = 2;
  static final int RULE = 3;
  static final int BEFORE = 4;
  static final int BEFORE_DEEP = 5;
  static final int AFTER = 6;
  static final int AFTER_DEEP = 7;

  /** First index of the level colours, which fill the rest of the 256. */
  static final int LEVELS = 8;

  static final int LEVEL_COUNT = 256 - LEVELS;

  private static final IndexColorModel COLOURS = colours();

  private final int width;
  private final int height;
  private final BufferedImage image;
  private final byte[] pixels;

  Sheet(int width, int height) {
    this.width = width;
    this.height = height;
    this.image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_INDEXED, COLOURS);
    this.pixels = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
  }

  private static IndexColorModel colours() {
    int[] map = new int[256];
    int[] fixed = {
      Palette.PAPER,
      Palette.INK,
      Palette.MUTED,
      Palette.RULE,
      Palette.BEFORE,
      Palette.BEFORE_DEEP,
      Palette.AFTER,
      Palette.AFTER_DEEP
    };
    System.arraycopy(fixed, 0, map, 0, fixed.length);
    System.arraycopy(LevelColours.scale(LEVEL_COUNT), 0, map, LEVELS, LEVEL_COUNT);
    return new IndexColorModel(8, 256, map, 0, false, -1, java.awt.image.DataBuffer.TYPE_BYTE);
  }

  void dot(int x, int y, int colour) {
    if (x >= 0 && x < width && y >= 0 && y < height) {
      pixels[y * width + x] = (byte) colour;
    }
  }

  /** Both ends included. */
  void horizontal(int x0, int x1, int y, int colour) {
    for (int x = x0; x <= x1; x++) {
      dot(x, y, colour);
    }
  }

  /** Both ends included, in either order. */
  void vertical(int x, int y0, int y1, int colour) {
    for (int y = Math.min(y0, y1); y <= Math.max(y0, y1); y++) {
      dot(x, y, colour);
    }
  }

  void fill(int x, int y, int w, int h, int colour) {
    for (int i = 0; i < h; i++) {
      horizontal(x, x + w - 1, y + i, colour);
    }
  }

  /** Outline just outside the rectangle. */
  void frame(int x, int y, int w, int h, int colour) {
    horizontal(x - 1, x + w, y - 1, colour);
    horizontal(x - 1, x + w, y + h, colour);
    vertical(x - 1, y - 1, y + h, colour);
    vertical(x + w, y - 1, y + h, colour);
  }

  /**
   * @param y top of the capitals
   */
  void text(String text, int x, int y, int scale, int colour) {
    String spelled = Glyphs.spelled(text);
    for (int i = 0; i < spelled.length(); i++) {
      for (int row = Glyphs.FIRST_ROW; row < Glyphs.ROWS; row++) {
        for (int column = 0; column < Glyphs.COLUMNS; column++) {
          if (Glyphs.dot(spelled.charAt(i), column, row)) {
            int left = x + (i * Glyphs.ADVANCE + column) * scale;
            fill(left, y + row * scale, scale, scale, colour);
          }
        }
      }
    }
  }

  void textRight(String text, int right, int y, int scale, int colour) {
    text(text, right - Glyphs.width(text, scale), y, scale, colour);
  }

  void textCentred(String text, int centre, int y, int scale, int colour) {
    text(text, centre - Glyphs.width(text, scale) / 2, y, scale, colour);
  }

  /** The image itself; what is drawn into it is drawn into the sheet. */
  BufferedImage image() {
    return image;
  }

  byte[] png() {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("png").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      writer.setOutput(out);
      writer.write(image);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e); // memory does not fail
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}
