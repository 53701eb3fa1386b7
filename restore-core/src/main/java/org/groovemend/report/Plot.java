package org.groovemend.report;

/**
 * Common measures of the pictures, so that their time axes stand above one another in the page.
 *
 * <p>Pixels: {@value #WIDTH} wide, the plotted area from {@value #LEFT} on, {@value #COLUMNS} wide.
 */
final class Plot {

  static final int WIDTH = 1200;
  static final int LEFT = 112;
  static final int COLUMNS = 960;
  static final int RIGHT = LEFT + COLUMNS;
  static final int SCALE = 2;

  /** Height of a line of text. */
  static final int LINE = 24;

  private static final int HALF_CAPITAL = 7;

  private Plot() {}

  /** Label to the left of the plotted area, its capitals centred on {@code y}. */
  static void leftLabel(Sheet sheet, String text, int y) {
    leftLabel(sheet, text, LEFT, y);
  }

  /** The same for an area that begins at {@code left}. */
  static void leftLabel(Sheet sheet, String text, int left, int y) {
    sheet.textRight(text, left - 10, y - HALF_CAPITAL, SCALE, Sheet.MUTED);
    sheet.horizontal(left - 6, left - 2, y, Sheet.MUTED);
  }

  static void rightLabel(Sheet sheet, String text, int y) {
    sheet.text(text, RIGHT + 10, y - HALF_CAPITAL, SCALE, Sheet.MUTED);
    sheet.horizontal(RIGHT + 1, RIGHT + 5, y, Sheet.MUTED);
  }

  /**
   * Ticks and labels under a plotted area that ends at {@code y}; takes {@link #timeAxisHeight}.
   */
  static void timeAxis(Sheet sheet, TimeAxis axis, int y) {
    for (TimeAxis.Tick tick : axis.ticks()) {
      int x = x(tick.fraction());
      sheet.vertical(x, y, y + 6, Sheet.MUTED);
      sheet.textCentred(tick.label(), x, y + 12, SCALE, Sheet.MUTED);
    }
    sheet.textCentred(
        "time (" + axis.unit() + ")", LEFT + COLUMNS / 2, y + 12 + LINE, SCALE, Sheet.INK);
  }

  static int timeAxisHeight() {
    return 12 + 2 * LINE + 6;
  }

  static int x(double fraction) {
    return LEFT + (int) Math.min(COLUMNS - 1, Math.floor(fraction * COLUMNS));
  }

  /** Left edge of one of {@code count} equal columns. */
  static int x(int column, int count) {
    return LEFT + (int) ((long) column * COLUMNS / count);
  }

  /** Words in the middle of a plotted area that has nothing to show. */
  static void nothing(Sheet sheet, int top, int height) {
    sheet.textCentred("no samples", LEFT + COLUMNS / 2, top + height / 2 - 20, SCALE, Sheet.MUTED);
  }
}
