package org.groovemend.report;

import java.io.IOException;

/**
 * Writes a page of sections in the manner of {@link ReportPage}: one file that needs nothing but
 * itself, well-formed as XML too, UTF-8, light or dark as the reader's screen prefers.
 */
public final class SheetPage {

  private SheetPage() {}

  /** Writes the whole page; closes nothing. */
  public static void write(SheetInput in, Appendable out) throws IOException {
    HtmlWriter html = new HtmlWriter(out);
    PageParts parts = new PageParts(html);
    parts.begin(in.kind() + ": " + in.title());
    html.start("header").element("p", in.kind(), "class", "kind");
    html.start("h1").element("bdi", in.title()).end();
    html.start("div", "class", "rule").end();
    html.element("p", in.summary(), "class", "summary").element("p", in.made(), "class", "made");
    html.end();
    html.start("main");
    for (SheetInput.Section section : in.sections()) {
      parts.open(section.title());
      for (String sentence : section.sentences()) {
        html.element("p", sentence);
      }
      parts.facts(section.facts(), section.factsCaption());
      for (Figure figure : section.figures()) {
        parts.figure(figure);
      }
      for (NumberTable table : section.tables()) {
        parts.table(table);
      }
      html.end();
    }
    html.end();
    if (in.signature()) {
      parts.signature("Read and accepted by");
    }
    html.end().end();
    html.finish();
  }
}
