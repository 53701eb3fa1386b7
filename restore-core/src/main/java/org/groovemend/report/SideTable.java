package org.groovemend.report;

import java.util.List;

/**
 * Sides in rows, which a reader can sort by any column where scripts run.
 *
 * @param caption what they are
 * @param titles one for each column
 * @param rows cells, one for each column; the first names the row
 * @param none what is said if there are no rows
 */
public record SideTable(String caption, List<String> titles, List<List<Cell>> rows, String none) {

  /**
   * A cell.
   *
   * @param text as it is to be printed
   * @param number by which to sort; NaN for texts, negative infinity if not known
   * @param link to a file beside the page, relative and not encoded; or null
   * @param command true if the text is a command line to be copied
   */
  public record Cell(String text, double number, String link, boolean command) {

    public static Cell of(String text) {
      return new Cell(text, Double.NaN, null, false);
    }

    public static Cell of(String text, double number) {
      return new Cell(text, number, null, false);
    }

    /** A number that is not known; sorted behind all others. */
    public static Cell unknown() {
      return new Cell("–", Double.NEGATIVE_INFINITY, null, false);
    }

    public static Cell link(String text, String file) {
      return new Cell(text, Double.NaN, file, false);
    }

    public static Cell command(String line) {
      return new Cell(line, Double.NaN, null, true);
    }
  }

  public SideTable {
    titles = List.copyOf(titles);
    rows = rows.stream().map(List::copyOf).toList();
    for (List<Cell> row : rows) {
      if (row.size() != titles.size()) {
        throw new IllegalArgumentException(row.size() + " cells under " + titles.size());
      }
    }
  }
}
