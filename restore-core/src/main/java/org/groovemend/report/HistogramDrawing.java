package org.groovemend.report;

import java.io.IOException;
import java.util.Locale;

/**
 * Draws a {@link Histogram} as SVG within the page, in the page's own colours, so that it follows
 * light and dark. What lies beyond a limit has another colour and an outline only, to be told in
 * grey too.
 */
final class HistogramDrawing {

  private static final int WIDTH = 300;
  private static final int HEIGHT = 96;
  private static final int FOOT = 16;

  private HistogramDrawing() {}

  static void write(Histogram h, HtmlWriter html) throws IOException {
    html.start("figure", "class", "spread");
    html.start(
        "svg",
        "viewBox",
        "0 0 " + WIDTH + " " + (HEIGHT + FOOT),
        "role",
        "img",
        "aria-label",
        h.title() + ". " + h.words());
    long most = Math.max(1, h.counts().stream().mapToLong(Long::longValue).max().orElse(1));
    double step = WIDTH / (double) h.counts().size();
    for (int i = 0; i < h.counts().size(); i++) {
      long count = h.counts().get(i);
      // the rarest is seen too
      double height = count == 0 ? 0 : Math.max(2, count * (HEIGHT - 8.0) / most);
      html.empty(
          "rect",
          "class",
          h.beyond().get(i) ? "beyond" : "bar",
          "x",
          number(i * step + 0.5),
          "y",
          number(HEIGHT - height),
          "width",
          number(step - 1),
          "height",
          number(height));
    }
    double low = h.edges().get(0);
    double high = h.edges().get(h.edges().size() - 1);
    double at = WIDTH * Math.min(1, Math.max(0, (h.median() - low) / (high - low)));
    html.empty(
        "line",
        "class",
        "median",
        "x1",
        number(at),
        "x2",
        number(at),
        "y1",
        "0",
        "y2",
        String.valueOf(HEIGHT));
    html.empty(
        "line",
        "class",
        "axis",
        "x1",
        "0",
        "x2",
        String.valueOf(WIDTH),
        "y1",
        String.valueOf(HEIGHT),
        "y2",
        String.valueOf(HEIGHT));
    String[] anchors = {"start", "middle", "end"};
    for (int i = 0; i < h.labels().size(); i++) {
      html.element(
          "text",
          h.labels().get(i),
          "x",
          String.valueOf(i * WIDTH / 2),
          "y",
          String.valueOf(HEIGHT + FOOT - 3),
          "text-anchor",
          anchors[i]);
    }
    html.end();
    html.start("figcaption").element("b", h.title()).text(" " + h.words()).end();
    html.end();
  }

  private static String number(double v) {
    return String.format(Locale.ROOT, "%.1f", v);
  }
}
