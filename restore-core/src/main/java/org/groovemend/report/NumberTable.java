package org.groovemend.report;

import java.util.Arrays;
import java.util.List;

/**
 * Numbers in rows.
 *
 * @param caption what they are, with their unit
 * @param titles one for each column
 * @param rows cells as they are to be printed, the first names the row
 * @param note how to read it, or empty
 */
public record NumberTable(
    String caption, List<String> titles, List<List<String>> rows, String note) {
  public NumberTable {
    titles = List.copyOf(titles);
    rows = rows.stream().map(List::copyOf).toList();
  }

  /** Which columns hold words alone: these begin at the left. */
  boolean[] columnsOfWords() {
    boolean[] words = new boolean[titles.size()];
    Arrays.fill(words, true);
    for (List<String> row : rows) {
      for (int c = 0; c < row.size(); c++) {
        String cell = row.get(c);
        words[c] &= cell.isEmpty() || "+-.0123456789".indexOf(cell.charAt(0)) < 0;
      }
    }
    return words;
  }
}
