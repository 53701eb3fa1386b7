package org.groovemend.report;

import java.util.Locale;

/** Draws a {@link LevelCourse}. */
final class LevelCoursePicture {
  private static final int AREA = 320;
  private static final int TOP = 12;
  private static final double STEP_DB = 20;
  private static final int DASH = 8;

  private LevelCoursePicture() {}

  static byte[] draw(LevelCourse course) {
    int top = TOP + 5 * Plot.LINE + 12;
    Sheet sheet = new Sheet(Plot.WIDTH, top + AREA + Plot.timeAxisHeight() + 6);
    legend(sheet);
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < course.low().length; i++) {
      low = Math.min(low, course.low()[i]);
      high = Math.max(high, course.high()[i]);
    }
    if (course.low().length == 0) {
      Plot.nothing(sheet, top, AREA);
      return sheet.png();
    }
    low = STEP_DB * Math.floor(low / STEP_DB);
    high = Math.max(low + STEP_DB, STEP_DB * Math.ceil(high / STEP_DB));
    for (double db = low; db <= high; db += STEP_DB) {
      int y = y(db, low, high, top);
      sheet.horizontal(Plot.LEFT, Plot.RIGHT - 1, y, Sheet.RULE);
      Plot.leftLabel(sheet, String.format(Locale.ROOT, "%.0f", db), y);
    }
    for (long[] gap : course.gaps()) {
      int from = x(gap[0], course);
      int to = Math.max(from + 2, x(gap[1], course));
      sheet.fill(from, top + AREA - 14, to - from, 14, Sheet.BEFORE);
    }
    int n = course.low().length;
    for (int i = 0; i < n; i++) {
      int x = Plot.x(i, n);
      int w = Math.max(1, Plot.x(i + 1, n) - x);
      // joined to the column before, and never too thin to be seen
      int before = Math.max(0, i - 1);
      int y = y(Math.max(course.high()[i], course.low()[before]), low, high, top) - 1;
      int to = y(Math.min(course.low()[i], course.high()[before]), low, high, top) + 1;
      sheet.fill(x, y, w, to - y + 1, Sheet.AFTER);
    }
    for (int i = 0; i < course.floor().length; i++) {
      int x = Plot.x(i, n);
      sheet.fill(x, y(course.floor()[i], low, high, top) - 1, 2, 3, Sheet.BEFORE_DEEP);
    }
    int last = -100;
    for (LevelCourse.Cut cut : course.cuts()) {
      int x = x(cut.frame(), course);
      for (int y = top - 6; y < top + AREA; y++) {
        if (cut.certain() || y / DASH % 2 == 0) {
          sheet.fill(x, y, 2, 1, Sheet.INK);
        }
      }
      if (x - last > 30) {
        sheet.textCentred(cut.label(), x, top - Plot.LINE, Plot.SCALE, Sheet.INK);
        last = x;
      }
    }
    sheet.frame(Plot.LEFT, top, Plot.COLUMNS, AREA, Sheet.MUTED);
    Plot.timeAxis(sheet, TimeAxis.of(course.frames(), course.sampleRateHz()), top + AREA);
    return sheet.png();
  }

  private static void legend(Sheet sheet) {
    int y = TOP;
    sheet.text(
        "mean level of half octaves from 280 Hz (dBFS), least to greatest",
        Plot.LEFT + 26,
        y,
        Plot.SCALE,
        Sheet.INK);
    sheet.fill(Plot.LEFT, y, 14, 14, Sheet.AFTER);
    y += Plot.LINE;
    sheet.text("noise of the groove", Plot.LEFT + 26, y, Plot.SCALE, Sheet.INK);
    sheet.fill(Plot.LEFT, y + 6, 14, 3, Sheet.BEFORE_DEEP);
    y += Plot.LINE;
    sheet.text("bare groove, at the foot", Plot.LEFT + 26, y, Plot.SCALE, Sheet.INK);
    sheet.fill(Plot.LEFT, y, 14, 14, Sheet.BEFORE);
    y += Plot.LINE;
    sheet.text("cut; dashed if doubted", Plot.LEFT + 26, y, Plot.SCALE, Sheet.INK);
    sheet.fill(Plot.LEFT + 6, y, 2, 16, Sheet.INK);
  }

  private static int x(long frame, LevelCourse course) {
    return Plot.x(frame / (double) Math.max(1, course.frames()));
  }

  private static int y(double db, double low, double high, int top) {
    double share = Math.max(0, Math.min(1, (high - db) / (high - low)));
    return top + (int) Math.round(share * (AREA - 1));
  }
}
