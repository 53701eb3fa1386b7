package org.groovemend.report;

import java.io.IOException;
import java.util.List;

/**
 * A page of measurements and pictures that needs nothing but itself: no script, no font, no
 * address. Also well-formed XML. To be stored as UTF-8.
 *
 * @param kind what sort of page, a few words
 * @param title what it is about
 * @param summary one or two sentences: the outcome
 * @param preparedBy name, version, date
 * @param sections in order
 */
public record MeasurementSheet(
    String kind, String title, String summary, String preparedBy, List<Section> sections) {

  public MeasurementSheet {
    sections = List.copyOf(sections);
  }

  /**
   * A numbered part of the page; any list may be empty.
   *
   * @param title its heading
   * @param sentence what is to be seen, or empty
   * @param facts label, value, sentence
   * @param tables of numbers
   * @param figures pictures
   */
  public record Section(
      String title,
      String sentence,
      List<Fact> facts,
      List<NumberTable> tables,
      List<Figure> figures) {
    public Section {
      facts = List.copyOf(facts);
      tables = List.copyOf(tables);
      figures = List.copyOf(figures);
    }
  }

  /** Writes the whole page; closes nothing. */
  public void write(Appendable out) throws IOException {
    HtmlWriter html = new HtmlWriter(out);
    PageParts parts = new PageParts(html);
    parts.begin(
        kind + ": " + title,
        PageStyle.CSS,
        "default-src 'none'; img-src data:; style-src 'unsafe-inline'");
    html.start("header").element("p", kind, "class", "kind");
    html.start("h1").element("bdi", title).end();
    html.start("div", "class", "rule").end();
    html.element("p", summary, "class", "summary");
    html.element("p", preparedBy, "class", "made").end();
    html.start("main");
    for (Section section : sections) {
      parts.open(section.title());
      if (!section.sentence().isEmpty()) {
        html.element("p", section.sentence());
      }
      parts.facts(section.facts());
      for (NumberTable table : section.tables()) {
        parts.table(table);
      }
      for (Figure figure : section.figures()) {
        parts.figure(figure);
      }
      html.end();
    }
    html.end().end().end();
    html.finish();
  }
}
