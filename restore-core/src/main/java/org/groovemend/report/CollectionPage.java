package org.groovemend.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes a page about many sides: one file that needs nothing but itself, in the manner of {@link
 * ReportPage}. Its script, the only one a policy in the page lets run, sorts and copies; without it
 * nothing is missing. Links lead to files beside the page.
 */
public final class CollectionPage {

  private static final String CSS =
      PageStyle.CSS
          + """
          main,header,footer{max-width:88rem}
          .skip{position:absolute;left:-99rem}
          .skip:focus{position:static;display:inline-block;margin:.5rem 1.25rem}
          a{color:var(--after)}
          a:focus-visible,button:focus-visible{outline:2px solid var(--before);outline-offset:2px}
          nav ul{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.2rem 1.4rem}
          .sides td,.sides th{white-space:normal;overflow-wrap:anywhere;min-width:4.5rem}
          .sides td.value{white-space:nowrap;overflow-wrap:normal}
          .sides td:first-child,.sides tbody th{min-width:11rem}
          .sides thead button{font:inherit;color:inherit;background:none;border:0;padding:0;
            cursor:pointer;text-align:left;text-decoration:underline dotted}
          th[aria-sort=ascending] button::after{content:" \\25B2"}
          th[aria-sort=descending] button::after{content:" \\25BC"}
          .copy{font:inherit;font-size:.82rem;color:var(--ink);background:none;
            border:1px solid var(--rule);border-radius:3px;margin-left:.5em;cursor:pointer}
          .spreads{display:grid;grid-template-columns:repeat(auto-fill,minmax(19rem,1fr));gap:1rem}
          .spread{margin:0}
          .spread svg{display:block;width:100%;height:auto;font:11px sans-serif}
          .spread text{fill:var(--muted)}
          .bar{fill:var(--after)}
          .beyond{fill:none;stroke:var(--before);stroke-width:1.6}
          .median{stroke:var(--ink);stroke-width:1.4;stroke-dasharray:4 3}
          .axis{stroke:var(--muted)}
          @media print{
            nav,.copy,.skip{display:none}
            .sides{font-size:8.5pt}
            .sides thead button{text-decoration:none}
            .sides td,.sides th{min-width:0}
            .sides td:first-child,.sides tbody th{min-width:0}
            .spreads{grid-template-columns:repeat(3,1fr)}
            thead{display:table-header-group}
          }
          """;

  private final CollectionSheet in;
  private final HtmlWriter html;
  private final PageParts parts;

  private CollectionPage(CollectionSheet in, Appendable out) {
    this.in = in;
    this.html = new HtmlWriter(out);
    this.parts = new PageParts(html);
  }

  /** Writes the whole page; closes nothing. */
  public static void write(CollectionSheet in, Appendable out) throws IOException {
    new CollectionPage(in, out).page();
  }

  private void page() throws IOException {
    parts.begin(
        in.kind() + ": " + in.title(),
        CSS,
        "default-src 'none'; style-src 'unsafe-inline'; script-src " + CollectionScript.source());
    html.element("a", "To the contents", "class", "skip", "href", "#contents");
    html.start("header").element("p", in.kind(), "class", "kind");
    html.start("h1").element("bdi", in.title()).end();
    html.start("div", "class", "rule").end();
    html.element("p", in.summary(), "class", "summary").element("p", in.made(), "class", "made");
    html.start("nav", "id", "contents", "aria-label", "Sections").start("ul");
    int number = 0;
    for (CollectionSheet.Section section : in.sections()) {
      number++;
      html.start("li").element("a", section.title(), "href", "#part-" + number).end();
    }
    html.end().end().end();
    html.start("main");
    for (CollectionSheet.Section section : in.sections()) {
      section(section);
    }
    html.end();
    html.start("p", "id", "status", "role", "status", "class", "quiet made").text("").end();
    html.script(CollectionScript.TEXT);
    html.end().end();
    html.finish();
  }

  private void section(CollectionSheet.Section section) throws IOException {
    parts.open(section.title());
    for (String sentence : section.sentences()) {
      html.element("p", sentence);
    }
    parts.facts(section.facts());
    for (SideTable table : section.tables()) {
      sides(table);
    }
    if (!section.spreads().isEmpty()) {
      html.start("div", "class", "spreads");
      for (Histogram spread : section.spreads()) {
        HistogramDrawing.write(spread, html);
      }
      html.end();
    }
    for (NumberTable table : section.numbers()) {
      parts.table(table);
    }
    html.end();
  }

  private void sides(SideTable table) throws IOException {
    if (table.rows().isEmpty()) {
      html.element("p", table.none(), "class", "quiet");
      return;
    }
    parts.scrolling(table.caption());
    html.start("table", "class", "sides").element("caption", table.caption());
    parts.head(table.titles().toArray(String[]::new));
    html.start("tbody");
    for (List<SideTable.Cell> row : table.rows()) {
      html.start("tr");
      for (int i = 0; i < row.size(); i++) {
        cell(row.get(i), i == 0);
      }
      html.end();
    }
    html.end().end().end();
  }

  private void cell(SideTable.Cell cell, boolean first) throws IOException {
    List<String> attributes = new ArrayList<>();
    if (first) {
      attributes.addAll(List.of("scope", "row"));
    }
    boolean number = !Double.isNaN(cell.number());
    if (number) {
      attributes.addAll(List.of("data-v", sortKey(cell.number()), "class", "value"));
    }
    html.start(first ? "th" : "td", attributes.toArray(String[]::new));
    if (cell.command()) {
      html.element("code", cell.text(), "class", "line");
    } else if (cell.link() != null) {
      html.start("a", "href", address(cell.link())).element("bdi", cell.text()).end();
    } else {
      html.element("bdi", cell.text());
    }
    html.end();
  }

  private static String sortKey(double number) {
    return Double.isInfinite(number) ? "" : String.valueOf(number);
  }

  /** A relative path as an address: all but letters, digits and a few others as %XX (RFC 3986). */
  static String address(String path) {
    StringBuilder text = new StringBuilder("./");
    for (byte b : path.getBytes(StandardCharsets.UTF_8)) {
      int c = b & 0xff;
      boolean plain =
          c >= 'a' && c <= 'z'
              || c >= 'A' && c <= 'Z'
              || c >= '0' && c <= '9'
              || "-._~/".indexOf(c) >= 0;
      if (plain) {
        text.append((char) c);
      } else {
        text.append('%').append("0123456789ABCDEF".charAt(c >> 4));
        text.append("0123456789ABCDEF".charAt(c & 15));
      }
    }
    return text.toString();
  }
}
