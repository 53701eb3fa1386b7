package org.groovemend.report;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * The characters of the pictures, from glyphs.txt beside this class: no font of the machine is
 * used.
 */
final class Glyphs {

  static final int COLUMNS = 5;
  static final int ROWS = 9;

  /** Distance from one character to the next. */
  static final int ADVANCE = 6;

  private static final int FIRST = 32;
  private static final int COUNT = 95;
  private static final boolean[][] SHAPES = load();

  private Glyphs() {}

  /**
   * Whether a dot of a character is set; characters outside printable ASCII show as a question
   * mark.
   */
  static boolean dot(char c, int column, int row) {
    int index = c - FIRST;
    boolean[] shape = SHAPES[index >= 0 && index < COUNT ? index : '?' - FIRST];
    return shape[row * COLUMNS + column];
  }

  static int width(String text, int scale) {
    return text.isEmpty() ? 0 : (text.length() * ADVANCE - 1) * scale;
  }

  private static boolean[][] load() {
    boolean[][] shapes = new boolean[COUNT][COLUMNS * ROWS];
    List<String> lines;
    try (InputStream in = Glyphs.class.getResourceAsStream("glyphs.txt");
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
      lines = reader.lines().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    int first = 0;
    int row = 0;
    for (String line : lines) {
      if (line.startsWith("@")) {
        first = Integer.parseInt(line.substring(1)) - FIRST;
        row = 0;
      } else if (line.startsWith(".") || line.startsWith("#") && !line.startsWith("# ")) {
        String[] cells = line.split(" ");
        for (int i = 0; i < cells.length; i++) {
          for (int c = 0; c < COLUMNS; c++) {
            shapes[first + i][row * COLUMNS + c] = cells[i].charAt(c) == '#';
          }
        }
        row++;
      }
    }
    return shapes;
  }
}
