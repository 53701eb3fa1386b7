package org.groovemend.report;

import java.io.IOException;
import java.util.List;
import java.util.Map;

/**
 * Writes the page of an inspection: one HTML file that needs nothing but itself; no script, no
 * font, no address; well-formed XML as well. To be stored as UTF-8.
 *
 * @param side name of the file
 * @param verdict one of "redo", "look", "fine"
 * @param summary a sentence or two
 * @param program with its version
 * @param facts of the file
 * @param groups findings, the gravest first
 * @param figures pictures
 * @param notShown pictures that could not be drawn, and why
 * @param limits name of the limits and what they are for
 */
public record InspectionSheet(
    String side,
    String verdict,
    String summary,
    String program,
    List<Fact> facts,
    List<Row> groups,
    List<Figure> figures,
    List<String> notShown,
    String limits) {

  /** Marks that can be told apart without colour. */
  private static final Map<String, String> MARKS =
      Map.of("redo", "\u25a0", "look", "\u25b2", "unknown", "?", "fine", "\u00b7");

  /**
   * A finding.
   *
   * @param verdict "redo", "look", "unknown" or "fine"
   * @param label of the measure
   * @param value with its unit
   * @param limit in words, and where it is from
   * @param confidence in words, empty if nobody knows
   * @param reason a sentence
   * @param places in the file, in words
   */
  public record Row(
      String verdict,
      String label,
      String value,
      String limit,
      String confidence,
      String reason,
      String places) {}

  public InspectionSheet {
    facts = List.copyOf(facts);
    groups = List.copyOf(groups);
    figures = List.copyOf(figures);
    notShown = List.copyOf(notShown);
  }

  /** Writes the whole page; closes nothing. */
  public void write(Appendable out) throws IOException {
    HtmlWriter html = new HtmlWriter(out);
    PageParts parts = new PageParts(html);
    parts.begin(
        "Inspection sheet: " + side,
        PageStyle.CSS,
        "default-src 'none'; img-src data:; style-src 'unsafe-inline'");
    html.start("header").element("p", "Inspection sheet", "class", "kind");
    html.start("h1").element("bdi", side).end();
    html.start("div", "class", "rule").end();
    html.element("p", MARKS.get(verdict) + " " + summary, "class", "summary");
    html.element("p", "Prepared by " + program + ". Limits: " + limits + ".", "class", "made");
    html.end();
    html.start("main");
    for (String each : List.of("redo", "look")) {
      findings(html, parts, each);
    }
    parts.open("Pictures");
    for (Figure figure : figures) {
      parts.figure(figure);
    }
    for (String sentence : notShown) {
      html.element("p", sentence, "class", "quiet");
    }
    html.end();
    for (String each : List.of("unknown", "fine")) {
      findings(html, parts, each);
    }
    parts.open("The file");
    parts.facts(facts, "Facts of the file");
    html.end();
    parts.open("Cautions");
    html.element(
        "p",
        "No measurement replaces listening. Needle drop, thumps and clicks can be far louder than the music: set the level"
            + " low before you listen. Every playing wears a disc; a lacquer may stand only one. Whether to play again is for"
            + " someone who knows the disc, not for this page.",
        "class",
        "care");
    html.end();
    html.end();
    html.start("footer").start("div", "class", "sign");
    html.element("div", "Looked at by").element("div", "Date");
    html.end().end().end().end();
    html.finish();
  }

  private void findings(HtmlWriter html, PageParts parts, String each) throws IOException {
    List<Row> rows = groups.stream().filter(row -> row.verdict().equals(each)).toList();
    if (rows.isEmpty()) {
      return;
    }
    parts.open(title(each) + " (" + rows.size() + ")");
    html.start("table", "class", "facts stack").element("caption", caption(each));
    parts.head("What", "Value and limit", "Reason and place");
    html.start("tbody");
    for (Row row : rows) {
      html.start("tr").start("th", "scope", "row");
      html.text(MARKS.get(each) + "\u00a0" + row.label()).end();
      html.start("td", "class", "value").element("bdi", row.value());
      html.empty("br").element("span", row.limit(), "class", "quiet").end();
      html.start("td", "class", "says").text(row.reason());
      if (!row.confidence().isEmpty()) {
        html.text(" " + row.confidence());
      }
      if (!row.places().isEmpty()) {
        html.empty("br").text(row.places());
      }
      html.end().end();
    }
    html.end().end().end();
  }

  private static String title(String verdict) {
    return switch (verdict) {
      case "redo" -> "Make again";
      case "look" -> "Look or listen";
      case "unknown" -> "Not known";
      default -> "Fine";
    };
  }

  private static String caption(String verdict) {
    return switch (verdict) {
      case "redo" ->
          "Outside the limits so far that the transfer should be made again, while the disc is at hand";
      case "look" -> "Outside the limits: a person should decide";
      case "unknown" -> "Could not be told from this file";
      default -> "Within the limits, or without a limit";
    };
  }
}
