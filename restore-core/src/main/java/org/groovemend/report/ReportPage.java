package org.groovemend.report;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Base64;
import java.util.List;
import java.util.Locale;

/**
 * Writes the treatment sheet of a side: one HTML page that needs nothing but itself.
 *
 * <p>No script, no font, no address: a content policy in the page forbids loading anything. The
 * page is also well-formed XML. To be stored as UTF-8.
 */
public final class ReportPage {

  private final HtmlWriter html;
  private final ReportInput in;
  private int section;

  private ReportPage(ReportInput in, Appendable out) {
    this.html = new HtmlWriter(out);
    this.in = in;
  }

  /** Writes the whole page; closes nothing. */
  public static void write(ReportInput in, Appendable out) throws IOException {
    new ReportPage(in, out).page();
  }

  private void page() throws IOException {
    html.doctype().start("html", "lang", "en").start("head");
    html.empty("meta", "charset", "utf-8");
    html.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    html.empty(
        "meta",
        "http-equiv",
        "Content-Security-Policy",
        "content",
        "default-src 'none'; img-src data:; style-src 'unsafe-inline'");
    html.element("title", "Treatment sheet: " + in.heading().side());
    html.style(PageStyle.CSS).end();
    html.start("body");
    heading();
    html.start("main");
    side();
    found();
    done();
    pictures();
    edits();
    cautions();
    commands();
    listening();
    html.end();
    signature();
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

  private void open(String title) throws IOException {
    section++;
    String id = "part-" + section;
    html.start("section", "aria-labelledby", id).start("h2", "id", id);
    html.element("span", String.valueOf(section), "class", "number").text(title).end();
  }

  private void side() throws IOException {
    open("The side and its files");
    facts(in.side(), "Facts of the original file");
    html.start("table", "class", "stack").element("caption", "Files of this treatment");
    head("File", "Name", "Bytes", "SHA-256 of the file");
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
    open("What was found");
    facts(in.found(), "Findings before any treatment");
    html.end();
  }

  private void done() throws IOException {
    open("What was done");
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
        facts(account(stage), stage.name() + ": what it changed");
      }
      if (!stage.settings().isEmpty()) {
        facts(stage.settings(), stage.name() + ": settings");
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
    open("Before and after");
    if (in.pictures().isEmpty()) {
      html.element("p", "No pictures were made.");
    }
    for (Figure figure : in.pictures()) {
      figure(figure);
    }
    html.end();
  }

  private void edits() throws IOException {
    open("Where the edits lie");
    ReportInput.EditAccount edits = in.edits();
    html.element(
        "p",
        edits.total() == 0
            ? "No place was edited singly."
            : Printed.count(edits.total())
                + (edits.total() == 1 ? " place was" : " places were")
                + " edited singly; the ledger has each of them with the samples it replaced."
                + " If they crowd where the music is loudest or on its beats, music was taken for damage.");
    for (Figure figure : edits.pictures()) {
      figure(figure);
    }
    if (!edits.doubtful().isEmpty()) {
      html.element("h3", "The most doubtful edits").element("p", edits.rule());
      doubtful(edits);
    }
    html.end();
  }

  private void doubtful(ReportInput.EditAccount edits) throws IOException {
    scrolling("The most doubtful edits");
    html.start("table")
        .element("caption", "Most doubtful first; times count from the file's start");
    head(
        "Time",
        "First frame",
        "Channel",
        "Length",
        "Stage",
        "Statistic",
        "Threshold",
        "Filled by",
        "Expected error");
    html.start("tbody");
    for (EditLine e : edits.doubtful()) {
      long length = e.end() - e.start();
      String millis = Printed.number(length * 1000.0 / edits.sampleRateHz(), 3);
      html.start("tr");
      html.element(
          "th", Printed.time(e.start(), edits.sampleRateHz()), "scope", "row", "class", "value");
      html.element("td", String.valueOf(e.start()), "class", "value");
      html.element("td", Plot.channelName(e.channel(), edits.channels()));
      html.element("td", length + " (" + millis + " ms)", "class", "value");
      html.element("td", e.stage());
      html.element("td", Printed.number(e.statistic(), 2), "class", "value");
      html.element("td", Printed.number(e.threshold(), 2), "class", "value");
      html.element("td", e.method());
      String error =
          Double.isNaN(e.uncertaintyDbfs()) ? "unknown" : Printed.dbfs(e.uncertaintyDbfs());
      html.element("td", error, "class", "value").end();
    }
    html.end().end().end();
  }

  private void cautions() throws IOException {
    open("Cautions and doubts");
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
    open("Prove it, or take it all back");
    for (Command command : in.commands()) {
      html.element("p", command.purpose() + ":");
      html.start("pre").element("code", command.line()).end();
    }
    html.end();
  }

  private void listening() throws IOException {
    open("Before you listen");
    html.start("div", "class", "care");
    html.element(
        "p",
        "Start with the level right down, above all for what was removed: it is mostly silence with"
            + " sudden loud pops, and playing it with gain can hurt ears and loudspeakers. Needle"
            + " drops and thumps in the original are louder than the music. Local rules on noise at"
            + " work apply.");
    html.element(
        "p",
        "What was removed should hold ticks, scratches and hiss, and no tune, words or rhythm of the"
            + " performance. If it does, take the treatment back and use a gentler one. Do not play"
            + " the disc once more to settle a doubt: each playing wears it; ask a conservator about"
            + " fragile discs.");
    html.end().end();
  }

  private void signature() throws IOException {
    html.start("footer").start("div", "class", "sign");
    html.element("div", "Heard and accepted by").element("div", "Date");
    html.end().end();
  }

  /** A table of label, value with unit, sentence. */
  private void facts(List<Fact> facts, String caption) throws IOException {
    if (facts.isEmpty()) {
      return;
    }
    html.start("table", "class", "facts stack").element("caption", caption);
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

  private void head(String... titles) throws IOException {
    html.start("thead").start("tr");
    for (String title : titles) {
      html.element("th", title, "scope", "col");
    }
    html.end().end();
  }

  /** A box that scrolls sideways on its own, reachable by keyboard; to be closed by the caller. */
  private void scrolling(String label) throws IOException {
    html.start("div", "class", "wide", "tabindex", "0", "role", "region", "aria-label", label);
  }

  private void figure(Figure figure) throws IOException {
    byte[] png = figure.png();
    html.element("h3", figure.title()).start("figure");
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
}
