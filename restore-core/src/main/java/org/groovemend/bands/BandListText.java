package org.groovemend.bands;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Lists of bands as plain text and as comma-separated values, our own definitions.
 *
 * <p>Plain: one band a line, {@code mm:ss.fff Title}; {@code +mm:ss Title} tells how long it lasts;
 * a line without a time is a title. Empty lines and lines that begin with # count for nothing.
 *
 * <p>Values: a first line that names the columns, among them at least one of start, duration,
 * title; fields in double quotes may hold commas, quotes (doubled) and line ends (RFC 4180).
 */
public final class BandListText {
  private static final Set<String> OURS = Set.of("start", "duration", "title");

  /** Columns that our own lists have beside them. */
  private static final Set<String> TOLD =
      Set.of("number", "end", "firstframe", "frames", "kind", "confidence", "reason");

  private BandListText() {}

  /**
   * Reads plain lines.
   *
   * @throws BandListException naming the line, if it cannot be followed
   */
  public static BandList plain(String text) {
    List<BandEntry> entries = new ArrayList<>();
    String[] lines = text.replace("\uFEFF", "").split("\\R", -1);
    for (int i = 0; i < lines.length; i++) {
      String line = lines[i].strip();
      if (line.isEmpty() || line.startsWith("#")) {
        continue;
      }
      String first = line.split("\\s+", 2)[0];
      String rest = line.substring(first.length()).strip();
      try {
        if (first.startsWith("+") && Clock.is(first.substring(1))) {
          entries.add(new BandEntry(Double.NaN, Clock.seconds(first.substring(1)), rest));
        } else if (Clock.is(first)) {
          entries.add(new BandEntry(Clock.seconds(first), Double.NaN, rest));
        } else {
          entries.add(new BandEntry(Double.NaN, Double.NaN, line));
        }
      } catch (BandListException e) {
        throw new BandListException("line " + (i + 1) + ": " + e.getMessage());
      }
    }
    return new BandList(entries);
  }

  /**
   * Reads comma-separated values.
   *
   * @throws BandListException naming the row, if it cannot be followed
   */
  public static BandList csv(String text) {
    List<List<String>> rows = rows(text.replace("\uFEFF", ""));
    if (rows.isEmpty()) {
      throw new BandListException("the list is empty");
    }
    List<String> head = rows.get(0).stream().map(h -> h.strip().toLowerCase(Locale.ROOT)).toList();
    for (String name : head) {
      if (!OURS.contains(name) && !TOLD.contains(name)) {
        throw new BandListException(
            "the first line names a column \""
                + name
                + "\"; columns are start, duration and title");
      }
    }
    if (head.stream().noneMatch(OURS::contains)) {
      throw new BandListException(
          "the first line names none of the columns start, duration, title");
    }
    int kind = head.indexOf("kind");
    List<BandEntry> entries = new ArrayList<>();
    for (int i = 1; i < rows.size(); i++) {
      List<String> row = rows.get(i);
      if (row.size() > head.size()) {
        throw new BandListException(
            "row " + (i + 1) + " has " + row.size() + " fields, the first " + head.size());
      }
      // run-in and run-out of our own lists are no bands
      if (kind >= 0 && !field(row, kind).equals("band")) {
        continue;
      }
      try {
        entries.add(
            new BandEntry(
                time(row, head.indexOf("start")),
                time(row, head.indexOf("duration")),
                field(row, head.indexOf("title"))));
      } catch (BandListException e) {
        throw new BandListException("row " + (i + 1) + ": " + e.getMessage());
      }
    }
    return new BandList(entries);
  }

  private static String field(List<String> row, int column) {
    return column < 0 || column >= row.size() ? "" : row.get(column).strip();
  }

  private static double time(List<String> row, int column) {
    String text = field(row, column);
    return text.isEmpty() ? Double.NaN : Clock.seconds(text);
  }

  private static List<List<String>> rows(String text) {
    List<List<String>> rows = new ArrayList<>();
    List<String> row = new ArrayList<>();
    StringBuilder field = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (quoted) {
        if (c != '"') {
          field.append(c);
        } else if (i + 1 < text.length() && text.charAt(i + 1) == '"') {
          field.append('"');
          i++;
        } else {
          quoted = false;
        }
      } else if (c == '"' && field.toString().isBlank()) {
        field.setLength(0);
        quoted = true;
      } else if (c == ',') {
        row.add(field.toString());
        field.setLength(0);
      } else if (c == '\n' || c == '\r') {
        end(rows, row, field);
        row = new ArrayList<>();
      } else {
        field.append(c);
      }
    }
    if (quoted) {
      throw new BandListException("a quoted field has no closing quote");
    }
    end(rows, row, field);
    return rows;
  }

  private static void end(List<List<String>> rows, List<String> row, StringBuilder field) {
    if (!row.isEmpty() || !field.toString().isBlank()) {
      row.add(field.toString());
      rows.add(row);
    }
    field.setLength(0);
  }

  /** Plain lines, mm:ss.fff and title, of the bands of a plan. */
  public static String plain(BandPlan plan) {
    StringBuilder out = new StringBuilder();
    for (BandPiece piece : plan.pieces()) {
      if (piece.kind() == BandPiece.Kind.BAND) {
        String title = piece.title().isEmpty() ? "Band " + piece.number() : oneLine(piece.title());
        out.append(Clock.text(plan.seconds(piece.firstFrame()))).append(' ').append(title);
        out.append('\n');
      }
    }
    return out.toString();
  }

  /** All pieces of a plan, seconds with six decimals. */
  public static String csv(BandPlan plan) {
    StringBuilder out =
        new StringBuilder("number,kind,start,end,firstFrame,frames,confidence,title,reason\r\n");
    for (BandPiece piece : plan.pieces()) {
      out.append(
          String.format(
              Locale.ROOT,
              "%d,%s,%.6f,%.6f,%d,%d,%.2f,%s,%s",
              piece.number(),
              piece.kind().word(),
              plan.seconds(piece.firstFrame()),
              plan.seconds(piece.endFrame()),
              piece.firstFrame(),
              piece.frames(),
              piece.confidence(),
              quoted(piece.title()),
              quoted(piece.reason())));
      out.append("\r\n");
    }
    return out.toString();
  }

  private static String quoted(String text) {
    return '"' + text.replace("\"", "\"\"") + '"';
  }

  private static String oneLine(String title) {
    return title.replaceAll("\\s+", " ");
  }
}
