package org.groovemend.report;

import java.util.List;

/** Draws a {@link Chart}, or several as panels of one picture. */
final class ChartPicture {
  private static final int AREA = 300;
  private static final int TOP = 12;
  private static final int BELOW = 12 + 2 * Plot.LINE + 12;

  /** Panels beside one another, and the columns of each. */
  private static final int ABREAST = 2;

  private static final int PANEL_COLUMNS = 420;
  private static final int HALF_MARK = 6;
  private static final int[] COLOURS = {
    Sheet.AFTER_DEEP, Sheet.BEFORE_DEEP, Sheet.INK, Sheet.MUTED
  };

  private final Chart chart;
  private final Sheet sheet;
  private final int left;
  private final int columns;
  private final int upper;
  private final int top;

  private ChartPicture(Chart chart, Sheet sheet, int left, int columns, int upper) {
    this.chart = chart;
    this.sheet = sheet;
    this.left = left;
    this.columns = columns;
    this.upper = upper;
    this.top = upper + head(chart);
  }

  static byte[] draw(Chart chart) {
    Sheet sheet = new Sheet(Plot.WIDTH, height(chart));
    new ChartPicture(chart, sheet, Plot.LEFT, Plot.COLUMNS, 0).draw();
    return sheet.png();
  }

  /** In rows of two, in their order. */
  static byte[] draw(List<Chart> charts) {
    int rows = (charts.size() + ABREAST - 1) / ABREAST;
    int height = charts.stream().mapToInt(ChartPicture::height).max().orElse(1);
    Sheet sheet = new Sheet(Plot.WIDTH, Math.max(1, rows * height));
    for (int i = 0; i < charts.size(); i++) {
      int left = Plot.LEFT + i % ABREAST * (Plot.WIDTH / ABREAST);
      new ChartPicture(charts.get(i), sheet, left, PANEL_COLUMNS, i / ABREAST * height).draw();
    }
    return sheet.png();
  }

  /** What stands above the plotted area. */
  private static int head(Chart chart) {
    int legend = chart.series().size() > 1 ? chart.series().size() : 0;
    return TOP + (legend + 1) * Plot.LINE + 8;
  }

  private static int height(Chart chart) {
    return head(chart) + AREA + BELOW;
  }

  private void draw() {
    legend();
    axes();
    if (chart.guide()) {
      double from = Math.max(chart.x().low(), chart.y().low());
      double to = Math.min(chart.x().high(), chart.y().high());
      line(x(from), y(from), x(to), y(to), 1, Sheet.MUTED);
    }
    for (int i = 0; i < chart.series().size(); i++) {
      series(chart.series().get(i), i);
    }
    sheet.frame(left, top, columns, AREA, Sheet.MUTED);
  }

  private void legend() {
    int line = upper + TOP;
    if (chart.series().size() > 1) {
      for (int i = 0; i < chart.series().size(); i++) {
        mark(left + HALF_MARK, line + HALF_MARK + 1, i);
        String name = chart.series().get(i).name();
        sheet.text(name, left + 26, line, Plot.SCALE, Sheet.INK);
        line += Plot.LINE;
      }
    }
    sheet.text(chart.yLabel(), left, line, Plot.SCALE, Sheet.INK);
  }

  private void axes() {
    for (Chart.Tick tick : chart.y().ticks()) {
      sheet.horizontal(left, left + columns - 1, y(tick.at()), Sheet.RULE);
      Plot.leftLabel(sheet, tick.label(), left, y(tick.at()));
    }
    for (Chart.Tick tick : chart.x().ticks()) {
      int x = x(tick.at());
      sheet.vertical(x, top, top + AREA - 1, Sheet.RULE);
      sheet.vertical(x, top + AREA, top + AREA + 6, Sheet.MUTED);
      sheet.textCentred(tick.label(), x, top + AREA + 12, Plot.SCALE, Sheet.MUTED);
    }
    int below = top + AREA + 12 + Plot.LINE;
    sheet.textCentred(chart.xLabel(), left + columns / 2, below, Plot.SCALE, Sheet.INK);
  }

  private void series(Chart.Series series, int number) {
    List<Chart.Point> points = series.points();
    int colour = COLOURS[number];
    for (int i = 0; i < points.size(); i++) {
      Chart.Point p = points.get(i);
      if (series.joined() && i > 0) {
        Chart.Point before = points.get(i - 1);
        line(x(before.x()), y(before.y()), x(p.x()), y(p.y()), 2, colour);
      }
      if (p.high() > p.low()) {
        int x = x(p.x());
        sheet.fill(x - 1, y(p.high()), 2, y(p.low()) - y(p.high()) + 1, colour);
        // an end outside the axis has no cap: it goes on
        if (p.high() <= chart.y().high()) {
          sheet.horizontal(x - 5, x + 4, y(p.high()), colour);
        }
        if (p.low() >= chart.y().low()) {
          sheet.horizontal(x - 5, x + 4, y(p.low()), colour);
        }
      }
    }
    for (int i = 0; i < points.size(); i++) {
      if (series.marks(i)) {
        mark(x(points.get(i).x()), y(points.get(i).y()), number);
      }
    }
  }

  /** Disc, square, triangle, cross. */
  private void mark(int x, int y, int number) {
    int h = HALF_MARK;
    for (int j = -h; j <= h; j++) {
      for (int i = -h; i <= h; i++) {
        boolean inside =
            switch (number) {
              case 0 -> i * i + j * j <= h * h;
              case 1 -> Math.abs(i) < h && Math.abs(j) < h;
              case 2 -> 2 * Math.abs(i) <= j + h;
              default -> Math.abs(Math.abs(i) - Math.abs(j)) <= 1;
            };
        if (inside) {
          sheet.dot(x + i, y + j, COLOURS[number]);
        }
      }
    }
  }

  private void line(int x0, int y0, int x1, int y1, int width, int colour) {
    int steps = Math.max(1, Math.max(Math.abs(x1 - x0), Math.abs(y1 - y0)));
    for (int i = 0; i <= steps; i++) {
      int x = x0 + Math.round((x1 - x0) * (float) i / steps);
      int y = y0 + Math.round((y1 - y0) * (float) i / steps);
      sheet.fill(x, y, width, width, colour);
    }
  }

  private int x(double value) {
    return left + (int) Math.round(share(value, chart.x()) * (columns - 1));
  }

  private int y(double value) {
    return top + AREA - 1 - (int) Math.round(share(value, chart.y()) * (AREA - 1));
  }

  private static double share(double value, Chart.Axis axis) {
    double share = (value - axis.low()) / (axis.high() - axis.low());
    return Math.max(0, Math.min(1, share));
  }
}
