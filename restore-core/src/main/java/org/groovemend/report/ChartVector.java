package org.groovemend.report;

import java.util.List;
import java.util.Locale;

/** Draws a {@link Chart} as SVG 1.1, with the marks and colours of {@link ChartPicture}. */
final class ChartVector {
  private static final int AREA = 420;
  private static final int TOP = 14;
  private static final int MARK = 5;
  private static final int[] COLOURS = {
    Palette.AFTER_DEEP, Palette.BEFORE_DEEP, Palette.INK, Palette.MUTED
  };

  private final Chart chart;
  private final StringBuilder out = new StringBuilder();
  private final int top;

  private ChartVector(Chart chart) {
    this.chart = chart;
    int legend = chart.series().size() > 1 ? chart.series().size() : 0;
    top = TOP + (legend + 1) * Plot.LINE + 8;
  }

  static String draw(Chart chart) {
    return new ChartVector(chart).draw();
  }

  private String draw() {
    int height = top + AREA + 2 * Plot.LINE + 24;
    add(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" font-family=\"sans-serif\""
            + " font-size=\"18\" fill=\"%s\">%n",
        Plot.WIDTH, height, Palette.css(Palette.INK));
    add(
        "<rect width=\"%d\" height=\"%d\" fill=\"%s\"/>%n",
        Plot.WIDTH, height, Palette.css(Palette.PAPER));
    head();
    axes();
    for (int i = 0; i < chart.series().size(); i++) {
      series(chart.series().get(i), i);
    }
    add(
        "<rect x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" fill=\"none\" stroke=\"%s\"/>%n",
        Plot.LEFT, top, Plot.COLUMNS, AREA, Palette.css(Palette.MUTED));
    return out.append("</svg>\n").toString();
  }

  private void head() {
    int line = TOP + 14;
    if (chart.series().size() > 1) {
      for (int i = 0; i < chart.series().size(); i++) {
        mark(Plot.LEFT + MARK, line - 6, i);
        text(Plot.LEFT + 26, line, "start", chart.series().get(i).name());
        line += Plot.LINE;
      }
    }
    text(Plot.LEFT, line, "start", chart.yLabel());
  }

  private void axes() {
    String rule = Palette.css(Palette.RULE);
    for (Chart.Tick tick : chart.y().ticks()) {
      double y = y(tick.at());
      add(
          "<path d=\"M%d %.2fH%d\" stroke=\"%s\"/>%n",
          Plot.LEFT, y, Plot.LEFT + Plot.COLUMNS, rule);
      text(Plot.LEFT - 10, y + 6, "end", tick.label());
    }
    for (Chart.Tick tick : chart.x().ticks()) {
      double x = x(tick.at());
      add("<path d=\"M%.2f %dV%d\" stroke=\"%s\"/>%n", x, top, top + AREA, rule);
      text(x, top + AREA + Plot.LINE, "middle", tick.label());
    }
    text(Plot.LEFT + Plot.COLUMNS / 2.0, top + AREA + 2 * Plot.LINE + 4, "middle", chart.xLabel());
  }

  private void series(Chart.Series series, int number) {
    List<Chart.Point> points = series.points();
    if (series.joined()) {
      StringBuilder line = new StringBuilder();
      for (Chart.Point p : points) {
        line.append(String.format(Locale.ROOT, "%.2f,%.2f ", x(p.x()), y(p.y())));
      }
      add(
          "<polyline points=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"2\"/>%n",
          line.toString().strip(), Palette.css(COLOURS[number]));
    }
    for (int i = 0; i < points.size(); i++) {
      Chart.Point p = points.get(i);
      if (p.high() > p.low()) {
        add(
            "<path d=\"M%.2f %.2fV%.2f\" stroke=\"%s\" stroke-width=\"2\"/>%n",
            x(p.x()), y(p.low()), y(p.high()), Palette.css(COLOURS[number]));
      }
      if (series.marks(i)) {
        mark(x(p.x()), y(p.y()), number);
      }
    }
  }

  /** Disc, square, triangle, cross. */
  private void mark(double x, double y, int number) {
    String colour = Palette.css(COLOURS[number]);
    switch (number) {
      case 0 -> add("<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%d\" fill=\"%s\"/>%n", x, y, MARK, colour);
      case 1 ->
          add(
              "<rect x=\"%.2f\" y=\"%.2f\" width=\"%d\" height=\"%d\" fill=\"%s\"/>%n",
              x - MARK, y - MARK, 2 * MARK, 2 * MARK, colour);
      case 2 ->
          add(
              "<path d=\"M%.2f %.2fl%d %dh%dz\" fill=\"%s\"/>%n",
              x, y - MARK, MARK, 2 * MARK, -2 * MARK, colour);
      default ->
          add(
              "<path d=\"M%.2f %.2fl%d %dm0 %dl%d %d\" stroke=\"%s\" stroke-width=\"2\"/>%n",
              x - MARK, y - MARK, 2 * MARK, 2 * MARK, -2 * MARK, -2 * MARK, 2 * MARK, colour);
    }
  }

  private void text(double x, double y, String anchor, String text) {
    String safe = text.replace("&", "&amp;").replace("<", "&lt;");
    add("<text x=\"%.2f\" y=\"%.2f\" text-anchor=\"%s\">%s</text>%n", x, y, anchor, safe);
  }

  private double x(double value) {
    return Plot.LEFT + share(value, chart.x()) * Plot.COLUMNS;
  }

  private double y(double value) {
    return top + AREA * (1 - share(value, chart.y()));
  }

  private static double share(double value, Chart.Axis axis) {
    double share = (value - axis.low()) / (axis.high() - axis.low());
    return Math.max(0, Math.min(1, share));
  }

  private void add(String form, Object... values) {
    out.append(String.format(Locale.ROOT, form.replace("%n", "\n"), values));
  }
}
