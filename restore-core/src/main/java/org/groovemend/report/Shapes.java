package org.groovemend.report;

/** Round and slanting shapes on a sheet, centred on a point. */
final class Shapes {

  private Shapes() {}

  static void disc(Sheet sheet, double x, double y, double radius, int colour) {
    for (int row = (int) Math.floor(y - radius); row <= y + radius; row++) {
      for (int column = (int) Math.floor(x - radius); column <= x + radius; column++) {
        double dx = column - x;
        double dy = row - y;
        if (dx * dx + dy * dy <= radius * radius) {
          sheet.dot(column, row, colour);
        }
      }
    }
  }

  /** Circle of a line {@code width} pixels wide, its middle at {@code radius}. */
  static void ring(Sheet sheet, double x, double y, double radius, double width, int colour) {
    double outer = radius + width / 2;
    double inner = Math.max(0, radius - width / 2);
    for (int row = (int) Math.floor(y - outer); row <= y + outer; row++) {
      double dy = row - y;
      double reach = Math.sqrt(Math.max(0, outer * outer - dy * dy));
      double hole = Math.sqrt(Math.max(0, inner * inner - dy * dy));
      for (int column = (int) Math.floor(x - reach); column <= x + reach; column++) {
        if (column < x - hole && column < x || column > x + hole && column > x) {
          double dx = column - x;
          double square = dx * dx + dy * dy;
          if (square <= outer * outer && square >= inner * inner) {
            sheet.dot(column, row, colour);
          }
        } else {
          // over the hole at once
          column = Math.max(column, (int) Math.floor(x + hole) - 1);
        }
      }
    }
  }

  /** Every fourth dot of a ring from {@code inner} to {@code outer}, in slanting lines. */
  static void hatched(Sheet sheet, double x, double y, double inner, double outer, int colour) {
    for (int row = (int) Math.floor(y - outer); row <= y + outer; row++) {
      for (int column = (int) Math.floor(x - outer); column <= x + outer; column++) {
        double dx = column - x;
        double dy = row - y;
        double square = dx * dx + dy * dy;
        if (Math.floorMod(row + column, 5) == 0
            && square <= outer * outer
            && square >= inner * inner) {
          sheet.dot(column, row, colour);
        }
      }
    }
  }

  static void line(
      Sheet sheet, double x0, double y0, double x1, double y1, double width, int colour) {
    int steps = (int) Math.max(1, Math.ceil(2 * Math.max(Math.abs(x1 - x0), Math.abs(y1 - y0))));
    for (int i = 0; i <= steps; i++) {
      double t = i / (double) steps;
      disc(sheet, x0 + t * (x1 - x0), y0 + t * (y1 - y0), width / 2, colour);
    }
  }

  /** Triangle, point up, a paper line around it. */
  static void wedge(Sheet sheet, double x, double y, int half, int colour) {
    filledWedge(sheet, x, y, half + 2, Sheet.PAPER);
    filledWedge(sheet, x, y, half, colour);
  }

  private static void filledWedge(Sheet sheet, double x, double y, int half, int colour) {
    for (int row = -half; row <= half; row++) {
      int wide = (row + half) / 2;
      sheet.horizontal(
          (int) Math.round(x) - wide,
          (int) Math.round(x) + wide,
          (int) Math.round(y) + row,
          colour);
    }
  }

  /** Text in ink on a hem of paper, to be read over anything. */
  static void hemmed(Sheet sheet, String text, int x, int y, int scale, int colour) {
    for (int dy = -2; dy <= 2; dy++) {
      for (int dx = -2; dx <= 2; dx++) {
        sheet.text(text, x + dx, y + dy, scale, Sheet.PAPER);
      }
    }
    sheet.text(text, x, y, scale, colour);
  }
}
