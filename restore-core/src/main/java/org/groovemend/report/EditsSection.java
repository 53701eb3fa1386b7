package org.groovemend.report;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;

/** Where the edits lie, and which to listen to first. */
final class EditsSection {

  private final PageParts parts;
  private final HtmlWriter html;

  EditsSection(PageParts parts) {
    this.parts = parts;
    this.html = parts.html();
  }

  void write(ReportInput.EditAccount edits) throws IOException {
    parts.open("Where the edits lie");
    html.element(
        "p",
        edits.total() == 0
            ? "No place was edited singly."
            : Printed.count(edits.total())
                + (edits.total() == 1 ? " place was" : " places were")
                + " edited singly; the ledger has each of them with the samples it replaced."
                + " If they crowd where the music is loudest or on its beats, music was taken for damage.");
    for (Figure figure : edits.pictures()) {
      parts.figure(figure);
    }
    if (!edits.doubtful().isEmpty()) {
      html.element("h3", "The most doubtful edits").element("p", edits.rule());
      doubtful(edits);
    }
    html.end();
  }

  private void doubtful(ReportInput.EditAccount edits) throws IOException {
    parts.scrolling("The most doubtful edits");
    html.start("table")
        .element(
            "caption",
            "Most doubtful first; numbers are those of the ledger, times count from the file's start");
    parts.head(
        "Edit",
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
      html.element("th", String.valueOf(e.number()), "scope", "row", "class", "value");
      html.element("td", Printed.time(e.start(), edits.sampleRateHz()), "class", "value");
      html.element("td", String.valueOf(e.start()), "class", "value");
      html.element("td", AudioFormat.channelName(e.channel(), edits.channels()));
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
}
