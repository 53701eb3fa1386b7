package org.groovemend.report;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The characters of the pictures, from glyphs.txt beside this class: no font of the machine is
 * used. Latin letters with marks are put together from both; what cannot be drawn is spelled as its
 * code point, U+6F22, and not lost.
 */
final class Glyphs {

  static final int COLUMNS = 5;

  /** Rows from the top of the capitals to the lowest tail. */
  static final int ROWS = 9;

  /** First row; marks of capitals lie above their top. */
  static final int FIRST_ROW = -2;

  /** Distance from one character to the next. */
  static final int ADVANCE = 6;

  private static final Map<Character, boolean[]> SHAPES = load();

  /**
   * Two rows each: grave, acute, circumflex, tilde, macron, breve, dot, diaeresis, ring and so on.
   */
  private static final Map<Character, String[]> ABOVE =
      Map.ofEntries(
          Map.entry('\u0300', new String[] {".#...", "..#.."}),
          Map.entry('\u0301', new String[] {"...#.", "..#.."}),
          Map.entry('\u0302', new String[] {"..#..", ".#.#."}),
          Map.entry('\u0303', new String[] {".#..#", "#.##."}),
          Map.entry('\u0304', new String[] {".....", ".###."}),
          Map.entry('\u0306', new String[] {"#...#", ".###."}),
          Map.entry('\u0307', new String[] {"..#..", "....."}),
          Map.entry('\u0308', new String[] {".#.#.", "....."}),
          Map.entry('\u030a', new String[] {".###.", ".#.#."}),
          Map.entry('\u030b', new String[] {"..#.#", ".#.#."}),
          Map.entry('\u030c', new String[] {".#.#.", "..#.."}));

  /** The same below the line. */
  private static final Map<Character, String[]> BELOW =
      Map.of(
          '\u0323', new String[] {".....", "..#.."},
          '\u0326', new String[] {"..#..", ".#..."},
          '\u0327', new String[] {"..#..", ".##.."},
          '\u0328', new String[] {"...#.", "...##"});

  private static final Map<Character, boolean[]> MADE = new HashMap<>();

  private Glyphs() {}

  /**
   * A text as it is drawn, one character a cell: composed, and what has no shape here as U+ and
   * four to six digits.
   */
  static String spelled(String text) {
    StringBuilder out = new StringBuilder();
    Normalizer.normalize(text, Normalizer.Form.NFC)
        .codePoints()
        .forEach(
            code -> {
              if (code < 0x10000 && shape((char) code) != null) {
                out.append((char) code);
              } else {
                out.append(String.format(Locale.ROOT, "U+%04X", code));
              }
            });
    return out.toString();
  }

  /**
   * Whether a dot of a character is set; a character without a shape shows as a question mark.
   *
   * @param row from {@link #FIRST_ROW} to {@link #ROWS}, exclusive
   */
  static boolean dot(char c, int column, int row) {
    boolean[] shape = shape(c);
    return (shape == null ? SHAPES.get('?') : shape)[(row - FIRST_ROW) * COLUMNS + column];
  }

  /** Width of a text as it is spelled. */
  static int width(String text, int scale) {
    return text.isEmpty() ? 0 : (spelled(text).length() * ADVANCE - 1) * scale;
  }

  /** Null for what cannot be drawn. */
  private static boolean[] shape(char c) {
    boolean[] drawn = SHAPES.get(c);
    if (drawn != null) {
      return drawn;
    }
    synchronized (MADE) {
      return MADE.computeIfAbsent(c, Glyphs::composed);
    }
  }

  private static boolean[] composed(char c) {
    String parts = Normalizer.normalize(String.valueOf(c), Normalizer.Form.NFD);
    boolean[] base = SHAPES.get(parts.charAt(0));
    if (base == null || parts.length() < 2) {
      return null;
    }
    boolean[] shape = base.clone();
    for (int i = 1; i < parts.length(); i++) {
      String[] above = ABOVE.get(parts.charAt(i));
      String[] below = BELOW.get(parts.charAt(i));
      if (above != null) {
        if (parts.charAt(0) == 'i' || parts.charAt(0) == 'j') {
          shape = SHAPES.get(parts.charAt(0) == 'i' ? '\u0131' : 'j').clone();
          put(shape, new String[] {".....", "....."}, 0, true);
        }
        put(shape, above, tall(shape) ? FIRST_ROW : 0, false);
      } else if (below != null) {
        put(shape, below, ROWS - 2, false);
      } else {
        return null;
      }
    }
    return shape;
  }

  private static boolean tall(boolean[] shape) {
    for (int i = -FIRST_ROW * COLUMNS; i < (2 - FIRST_ROW) * COLUMNS; i++) {
      if (shape[i]) {
        return true;
      }
    }
    return false;
  }

  private static void put(boolean[] shape, String[] rows, int first, boolean clear) {
    for (int r = 0; r < rows.length; r++) {
      for (int c = 0; c < COLUMNS; c++) {
        int at = (first + r - FIRST_ROW) * COLUMNS + c;
        shape[at] = rows[r].charAt(c) == '#' || shape[at] && !clear;
      }
    }
  }

  private static Map<Character, boolean[]> load() {
    Map<Character, boolean[]> shapes = new HashMap<>();
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
        first = Integer.parseInt(line.substring(1));
        row = -FIRST_ROW;
      } else if (line.startsWith(".") || line.startsWith("#") && !line.startsWith("# ")) {
        String[] cells = line.split(" ");
        for (int i = 0; i < cells.length; i++) {
          boolean[] shape =
              shapes.computeIfAbsent(
                  (char) (first + i), c -> new boolean[COLUMNS * (ROWS - FIRST_ROW)]);
          for (int c = 0; c < COLUMNS; c++) {
            shape[row * COLUMNS + c] = cells[i].charAt(c) == '#';
          }
        }
        row++;
      }
    }
    return shapes;
  }
}
