package org.groovemend.report;

import java.io.IOException;
import java.util.List;

/**
 * Writes the treatment sheet of a side: one HTML page that needs nothing but itself.
 *
 * <p>No script, no font, no address: a content policy in the page forbids loading anything. The
 * page is also well-formed XML. To be stored as UTF-8.
 */
public final class ReportPage {

  private final HtmlWriter html;
  private final PageParts parts;
  private final ReportInput in;

  private ReportPage(ReportInput in, Appendable out) {
    this.html = new HtmlWriter(out);
    this.parts = new PageParts(html);
    this.in = in;
  }

  /** Writes the whole page; closes nothing. */
  public static void write(ReportInput in, Appendable out) throws IOException {
    new ReportPage(in, out).page();
  }

  private void page() throws IOException {
    parts.begin("Treatment sheet: " + in.heading().side());
    heading();
    html.start("main");
    side();
    found();
    done();
    pictures();
    new ComparisonSection(parts).write(in.comparison());
    new EditsSection(parts).write(in.edits());
    cautions();
    commands();
    new ListeningSection(parts).write(in.listening());
    html.end();
    parts.signature("Heard and accepted by");
    html.end().end();
    html.finish();
  }

  private void heading() throws IOException {
    html.start("header").element("p", "Treatment sheet", "class", "kind");
    html.start("h1").element("bdi", in.heading().side()).end();
    html.start("div", "class", "rule").end();
    html.element("p", in.heading().summary(), "class", "summary");
    html.element(
        "p",
        "Prepared by " + in.heading().program() + ", " + in.heading().preparedAt() + ".",
        "class",
        "made");
    html.end();
  }

  private void side() throws IOException {
    parts.open("The side and its files");
    parts.facts(in.side(), "Facts of the original file");
    html.start("table", "class", "stack").element("caption", "Files of this treatment");
    parts.head("File", "Name", "Bytes", "SHA-256 of the file");
    html.start("tbody");
    for (FileEntry file : in.files()) {
      html.start("tr").element("th", file.role(), "scope", "row");
      html.start("td").element("bdi", file.name()).end();
      html.element(
          "td", file.bytes() < 0 ? "see ledger" : Printed.count(file.bytes()), "class", "value");
      html.element("td", file.sha256().isEmpty() ? "see ledger" : file.sha256(), "class", "hash")
          .end();
    }
    html.end().end().end();
  }

  private void found() throws IOException {
    parts.open("What was found");
    parts.facts(in.found(), "Findings before any treatment");
    html.end();
  }

  private void done() throws IOException {
    parts.open("What was done");
    if (in.stages().isEmpty()) {
      html.element("p", "No treatment was asked for.");
    }
    for (StageAccount stage : in.stages()) {
      html.start("h3").text(stage.name());
      html.element(
          "span", stage.ran() ? "applied" : "not applied",
          "class", stage.ran() ? "state" : "state out");
      html.end().element("p", stage.sentence());
      if (stage.ran()) {
        parts.facts(account(stage), stage.name() + ": what it changed");
      }
      if (!stage.settings().isEmpty()) {
        parts.facts(stage.settings(), stage.name() + ": settings");
      }
    }
    html.end();
  }

  private static List<Fact> account(StageAccount stage) {
    String edits =
        stage.edits() < 0 ? "whole signal: any sample may differ" : Printed.count(stage.edits());
    return List.of(
        Fact.of("Edits", edits, ""),
        Fact.of("Samples changed", Printed.count(stage.samplesChanged()), ""),
        Fact.of("Time changed", Printed.number(stage.secondsChanged(), 3), "s"),
        new Fact(
            "Level of what was removed",
            Printed.dbfs(stage.removedRmsDbfs()),
            "",
            "RMS over the whole side."),
        Fact.of("Peak of what was removed", Printed.dbfs(stage.removedPeakDbfs()), ""));
  }

  private void pictures() throws IOException {
    parts.open("Before and after");
    if (in.pictures().isEmpty()) {
      html.element("p", "No pictures were made.");
    }
    for (Figure figure : in.pictures()) {
      parts.figure(figure);
    }
    html.end();
  }

  private void cautions() throws IOException {
    parts.open("Cautions and doubts");
    if (in.cautions().isEmpty()) {
      html.element("p", "Nothing stood out. That is no proof: no measurement replaces listening.");
    } else {
      html.start("ul");
      for (String caution : in.cautions()) {
        html.element("li", caution);
      }
      html.end();
    }
    html.end();
  }

  private void commands() throws IOException {
    parts.open("Prove it, or take it all back");
    for (Command command : in.commands()) {
      html.element("p", command.purpose() + ":");
      html.start("pre").element("code", command.line()).end();
    }
    html.end();
  }
}
