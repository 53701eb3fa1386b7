package org.groovemend.report;

import java.util.Locale;

/**
 * Draws a {@link WallField}: one square, both axes alike, darker where the walls are more often.
 */
final class WallFieldPicture {
  private static final int AREA = 520;
  private static final int TOP = 12 + 2 * Plot.LINE;
  private static final int LEFT = (Plot.WIDTH - AREA) / 2;

  private WallFieldPicture() {}

  static byte[] draw(WallField field) {
    Sheet sheet = new Sheet(Plot.WIDTH, TOP + AREA + 12 + 2 * Plot.LINE + 12);
    int reach = field.reach();
    int middle = WallField.CELLS / 2;
    double most = 1;
    for (int y = -reach; y < reach; y++) {
      for (int x = -reach; x < reach; x++) {
        most = Math.max(most, field.count(middle + y, middle + x));
      }
    }
    double scale = (Sheet.LEVEL_COUNT - 1) / StrictMath.log1p(most);
    for (int py = 0; py < AREA; py++) {
      int lateral = middle + reach - 1 - py * 2 * reach / AREA;
      for (int px = 0; px < AREA; px++) {
        int count = field.count(lateral, middle - reach + px * 2 * reach / AREA);
        if (count > 0) {
          int level = (int) (StrictMath.log1p(count) * scale);
          sheet.dot(LEFT + px, TOP + py, Sheet.LEVELS + level);
        }
      }
    }
    int centre = LEFT + AREA / 2;
    sheet.vertical(centre, TOP, TOP + AREA - 1, Sheet.RULE);
    sheet.horizontal(LEFT, LEFT + AREA - 1, TOP + AREA / 2, Sheet.RULE);
    sheet.frame(LEFT, TOP, AREA, AREA, Sheet.MUTED);
    double full = reach / (double) middle;
    String end = String.format(Locale.ROOT, full < 0.1 ? "%.3f" : "%.2f", full);
    sheet.textCentred("lateral, half the sum (full scale 1)", centre, 12, Plot.SCALE, Sheet.INK);
    Plot.leftLabel(sheet, "+" + end, LEFT, TOP + 7);
    Plot.leftLabel(sheet, "0", LEFT, TOP + AREA / 2);
    Plot.leftLabel(sheet, "-" + end, LEFT, TOP + AREA - 8);
    int below = TOP + AREA + 12;
    sheet.textCentred("-" + end, LEFT, below, Plot.SCALE, Sheet.MUTED);
    sheet.textCentred("0", centre, below, Plot.SCALE, Sheet.MUTED);
    sheet.textCentred("+" + end, LEFT + AREA, below, Plot.SCALE, Sheet.MUTED);
    sheet.textCentred(
        "vertical, half the difference", centre, below + Plot.LINE, Plot.SCALE, Sheet.INK);
    bar(sheet, most);
    return sheet.png();
  }

  private static void bar(Sheet sheet, double most) {
    int left = LEFT + AREA + 40;
    int top = TOP + 2 * Plot.LINE;
    int height = AREA / 2;
    for (int i = 0; i < height; i++) {
      int level = (Sheet.LEVEL_COUNT - 1) * (height - 1 - i) / (height - 1);
      sheet.horizontal(left, left + 17, top + i, Sheet.LEVELS + level);
    }
    sheet.frame(left, top, 18, height, Sheet.MUTED);
    sheet.text("samples", left, top - 2 * Plot.LINE, Plot.SCALE, Sheet.INK);
    sheet.text("in a cell", left, top - Plot.LINE, Plot.SCALE, Sheet.INK);
    sheet.text(Printed.count((long) most), left + 28, top - 4, Plot.SCALE, Sheet.MUTED);
    sheet.text("1", left + 28, top + height - 12, Plot.SCALE, Sheet.MUTED);
  }
}
