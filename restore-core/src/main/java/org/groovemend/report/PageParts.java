package org.groovemend.report;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Base64;
import java.util.List;
import java.util.Locale;

/** What the sections of the page are made of. */
final class PageParts {

  private final HtmlWriter html;
  private int section;

  PageParts(HtmlWriter html) {
    this.html = html;
  }

  HtmlWriter html() {
    return html;
  }

  /** The page up to its body, which is left open. */
  void begin(String title) throws IOException {
    begin(
        title,
        PageStyle.CSS,
        "default-src 'none'; img-src data:; media-src data:; style-src 'unsafe-inline'");
  }

  /**
   * The same with a look of its own.
   *
   * @param policy what the browser may load
   */
  void begin(String title, String css, String policy) throws IOException {
    html.doctype().start("html", "lang", "en").start("head");
    html.empty("meta", "charset", "utf-8");
    html.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    html.empty("meta", "http-equiv", "Content-Security-Policy", "content", policy);
    html.element("title", title);
    html.style(css).end();
    html.start("body");
  }

  /** Lines to sign on. */
  void signature(String words) throws IOException {
    html.start("footer").start("div", "class", "sign");
    html.element("div", words).element("div", "Date");
    html.end().end();
  }

  /** Begins a numbered section; to be closed by the caller. */
  void open(String title) throws IOException {
    section++;
    String id = "part-" + section;
    html.start("section", "aria-labelledby", id).start("h2", "id", id);
    html.element("span", String.valueOf(section), "class", "number").text(title).end();
  }

  /** A table of label, value with unit, sentence. */
  void facts(List<Fact> facts, String caption) throws IOException {
    if (facts.isEmpty()) {
      return;
    }
    html.start("table", "class", "facts stack").element("caption", caption);
    factRows(facts);
  }

  /** The same where the heading of the section says all that a caption would. */
  void facts(List<Fact> facts) throws IOException {
    if (facts.isEmpty()) {
      return;
    }
    html.start("table", "class", "facts stack", "aria-labelledby", "part-" + section);
    factRows(facts);
  }

  private void factRows(List<Fact> facts) throws IOException {
    head("What", "Value", "Meaning");
    html.start("tbody");
    for (Fact fact : facts) {
      html.start("tr").element("th", fact.label(), "scope", "row");
      String unit = fact.unit().isEmpty() ? "" : "\u00a0" + fact.unit();
      html.start("td", "class", "value").element("bdi", fact.value() + unit).end();
      html.element("td", fact.sentence(), "class", "says").end();
    }
    html.end().end();
  }

  void head(String... titles) throws IOException {
    html.start("thead").start("tr");
    for (String title : titles) {
      html.element("th", title, "scope", "col");
    }
    html.end().end();
  }

  /** A box that scrolls sideways on its own, reachable by keyboard; to be closed by the caller. */
  void scrolling(String label) throws IOException {
    html.start("div", "class", "wide", "tabindex", "0", "role", "region", "aria-label", label);
  }

  void figure(Figure figure) throws IOException {
    html.element("h3", figure.title());
    picture(figure);
  }

  /** A figure without a heading. */
  void picture(Figure figure) throws IOException {
    byte[] png = figure.png();
    html.start("figure");
    scrolling(figure.title());
    html.empty(
        "img",
        "alt",
        figure.altText(),
        "width",
        String.valueOf(pngNumber(png, 16)),
        "height",
        String.valueOf(pngNumber(png, 20)),
        "src",
        "data:image/png;base64," + Base64.getEncoder().encodeToString(png));
    html.end().element("figcaption", figure.caption()).end();
  }

  /** Width at byte 16, height at byte 20 of a PNG file (ISO/IEC 15948, IHDR comes first). */
  private static int pngNumber(byte[] png, int at) {
    if (png.length < 24 || png[1] != 'P' || png[2] != 'N' || png[3] != 'G') {
      throw new IllegalArgumentException(
          String.format(Locale.ROOT, "picture of %d bytes is not a PNG file", png.length));
    }
    return ByteBuffer.wrap(png).getInt(at);
  }

  /** A table of numbers, wide ones scroll sideways. */
  void table(NumberTable table) throws IOException {
    scrolling(table.caption());
    html.start("table", "class", "numbers").element("caption", table.caption());
    boolean[] words = table.columnsOfWords();
    html.start("thead").start("tr");
    for (int c = 0; c < words.length; c++) {
      html.element("th", table.titles().get(c), "scope", "col", "class", words[c] ? "words" : "");
    }
    html.end().end();
    html.start("tbody");
    for (List<String> row : table.rows()) {
      html.start("tr").element("th", row.get(0), "scope", "row", "class", "value");
      for (int c = 1; c < row.size(); c++) {
        html.element("td", row.get(c), "class", words[c] ? "value words" : "value");
      }
      html.end();
    }
    html.end().end().end();
    if (!table.note().isEmpty()) {
      html.element("p", table.note(), "class", "quiet");
    }
  }
}
