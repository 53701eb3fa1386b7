package org.groovemend.job.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audit.AuditOutcome;
import org.groovemend.audit.Difference;
import org.groovemend.audit.Finding;
import org.groovemend.job.side.LedgerLines;
import org.groovemend.report.Fact;
import org.groovemend.report.Figure;
import org.groovemend.report.NumberTable;
import org.groovemend.report.SheetInput;
import org.groovemend.report.SheetPage;

/** The page of an audit. */
public final class AuditPage {
  private static final int ROWS = 200;

  private AuditPage() {}

  static String of(Audit.Request request, Audit.Result result) throws IOException {
    AuditOutcome outcome = result.outcome();
    List<SheetInput.Section> sections = new ArrayList<>();
    sections.add(files(result));
    if (outcome.words() != null) {
      sections.add(words(outcome));
    }
    if (outcome.verdict() == AuditOutcome.Verdict.MEASURED) {
      sections.add(findings(outcome));
    }
    sections.add(differences(result));
    SheetInput input =
        new SheetInput(
            "Audit",
            result.derivative().name(),
            outcome.summary(),
            "Prepared by groovemend " + request.toolVersion() + ", " + request.preparedAt() + ".",
            sections,
            true);
    StringBuilder page = new StringBuilder();
    SheetPage.write(input, page);
    return page.toString();
  }

  private static SheetInput.Section files(Audit.Result result) {
    List<Fact> facts = new ArrayList<>();
    facts.addAll(LedgerLines.file("Original", result.original()));
    facts.addAll(LedgerLines.file("Derivative", result.derivative()));
    facts.add(
        new Fact(
            "Ledger",
            result.ledger() == null ? "none" : result.ledger(),
            "",
            result.ledger() == null ? "What is told was measured." : "Its chain and seal hold."));
    return new SheetInput.Section(
        "The files", result.notices(), facts, "Both files were only read", List.of(), List.of());
  }

  private static SheetInput.Section words(AuditOutcome outcome) {
    AuditOutcome.WordAccount w = outcome.words();
    return new SheetInput.Section(
        "What the ledger explains",
        List.of(),
        List.of(
            Fact.of("Samples that differ", number(w.changed()), ""),
            Fact.of("Explained", number(w.explained()), ""),
            new Fact(
                "Unexplained",
                number(w.unexplained()),
                "",
                w.unexplained() == 0 ? "" : "The places stand below, first."),
            Fact.of("Edits that do not hold the words logged", number(w.alteredCount()), "")),
        "Words of both files, compared one by one",
        List.of(),
        List.of());
  }

  private static SheetInput.Section findings(AuditOutcome outcome) {
    List<Fact> facts = new ArrayList<>();
    for (Finding f : outcome.findings()) {
      facts.add(
          new Fact(
              name(f.kind()),
              String.format(Locale.ROOT, "%.0f", 100 * f.confidence()),
              "% sure",
              f.words()));
    }
    List<Figure> figures = new ArrayList<>();
    if (!outcome.transfer().isEmpty()) {
      figures.add(AuditChart.transfer(outcome));
    }
    if (!outcome.softLoud().isEmpty()) {
      figures.add(AuditChart.softLoud(outcome));
    }
    return new SheetInput.Section(
        "What became of the recording",
        List.of("What is told here was measured, not proved; what has no name is called unknown."),
        facts,
        "Findings",
        List.of(),
        figures);
  }

  private static String name(Finding.Kind kind) {
    String words = kind.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  private static SheetInput.Section differences(Audit.Result result) {
    AuditOutcome outcome = result.outcome();
    if (outcome.differenceCount() == 0) {
      return new SheetInput.Section(
          "Places that differ",
          List.of("No place was found that differs from the rest."),
          List.of(),
          "",
          List.of(),
          outcome.differenceDbfs().isEmpty() ? List.of() : List.of(AuditChart.course(result)));
    }
    List<List<String>> rows = new ArrayList<>();
    AudioFormat format = result.derivative().format();
    for (Difference d :
        outcome.differences().subList(0, Math.min(ROWS, outcome.differences().size()))) {
      rows.add(
          List.of(
              String.format(Locale.ROOT, "%.4f", format.seconds(d.from())),
              String.valueOf(d.from()),
              String.valueOf(d.to() - d.from()),
              format.channelName(d.channel()),
              level(d.peakDbfs()),
              level(d.rmsDbfs()),
              d.kind().words(),
              d.explanation().isEmpty() ? "no ledger" : d.explanation()));
    }
    return new SheetInput.Section(
        "Places that differ",
        List.of(
            String.format(
                Locale.ROOT,
                "%,d range%s, %,d samples. Frames and seconds are the derivative's.",
                outcome.differenceCount(),
                outcome.differenceCount() == 1 ? "" : "s",
                outcome.differenceSamples())),
        List.of(),
        "",
        List.of(
            new NumberTable(
                "Ranges, levels of the difference in dBFS",
                List.of(
                    "Seconds", "Frame", "Frames", "Channel", "Peak", "RMS", "Kind", "Explanation"),
                rows,
                outcome.differenceCount() > rows.size()
                    ? "The first " + rows.size() + "; the JSON output lists up to 10,000."
                    : "")),
        List.of(AuditChart.course(result)));
  }

  private static String number(long samples) {
    return String.format(Locale.ROOT, "%,d", samples);
  }

  private static String level(double db) {
    return Double.isFinite(db) ? String.format(Locale.ROOT, "%.1f", db) : "none";
  }
}
