package org.groovemend.job.account;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.Verdict;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.lineage.Forebears;
import org.groovemend.report.EditDensityBuilder;
import org.groovemend.report.Fact;
import org.groovemend.report.Figure;
import org.groovemend.report.NumberTable;
import org.groovemend.report.Pictures;
import org.groovemend.report.SheetInput;
import org.groovemend.signing.Fingerprint;

/** Which edits of its parent a copy is without, by whose decision, as far as that is at hand. */
final class TakenBack {

  private static final int ROWS = 200;

  private final Ledger ledger;
  private final LedgerParent link;
  private final List<Path> places;

  /**
   * @param ledger of the copy, whose parent's descent is known to hold as far as it is at hand
   * @param places where forebears may lie besides
   */
  TakenBack(Ledger ledger, List<Path> places) {
    this.ledger = ledger;
    this.link = ledger.header().parent();
    this.places = places;
  }

  SheetInput.Section section() throws IOException {
    Forebears forebears = new Forebears(places);
    Ledger parent = forebears.parent(ledger).ledger();
    Path file = forebears.decisions(ledger);
    DecisionFile decisions = file == null ? null : DecisionDocument.read(file);
    List<String> sentences = new ArrayList<>();
    sentences.add(
        String.format(
            Locale.ROOT,
            "%,d of the %,d edits of %s (fingerprint %s) %s taken back; every other takes away exactly what it took away there.",
            link.undone(),
            link.edits(),
            link.ledger(),
            Fingerprint.of(link.seal()).text(),
            link.undone() == 1 ? "was" : "were"));
    if (link.undoneInAll() > link.undone()) {
      sentences.add(link.undoneInAll() + " were taken back in all since the first treatment.");
    }
    sentences.add(decisions == null ? "" : by(decisions));
    sentences.removeIf(String::isEmpty);
    if (parent == null || decisions == null) {
      sentences.add(
          "Which they were is not listed: "
              + (parent != null && link.decisions() == null
                  ? "no file of decisions was kept."
                  : (parent == null ? link.ledger() : link.decisions())
                      + " is not at hand (--parent says where it is)."));
      return new SheetInput.Section(
          "What was taken back", sentences, List.of(), "", List.of(), List.of());
    }
    return listed(parent, decisions, sentences);
  }

  private static String by(DecisionFile decisions) {
    String by =
        decisions.reviewer().isEmpty()
            ? "Who decided so was not said"
            : "Decided by " + decisions.reviewer();
    return by
        + (decisions.signOff() == null
            ? "; nobody has signed the decisions off."
            : "; signed off by "
                + decisions.signOff().by()
                + ", "
                + decisions.signOff().atUtc().substring(0, 10)
                + ".");
  }

  private SheetInput.Section listed(Ledger parent, DecisionFile decisions, List<String> sentences)
      throws IOException {
    AudioFormat format = ledger.header().original().format();
    EditDensityBuilder density =
        new EditDensityBuilder(format, ledger.header().original().frames(), Pictures.EDIT_COLUMNS);
    List<List<String>> rows = new ArrayList<>();
    Map<String, Long> stages = new LinkedHashMap<>();
    parent.forEachEdit(
        edit -> {
          if (decisions.verdictOf(edit) != Verdict.UNDO) {
            return;
          }
          stages.merge(edit.stage(), 1L, Long::sum);
          density.add(edit.channel(), edit.start(), edit.end());
          if (rows.size() < ROWS) {
            rows.add(row(edit, format, decisions));
          }
        });
    List<Fact> facts =
        stages.entrySet().stream()
            .map(e -> Fact.of(e.getKey(), Long.toString(e.getValue()), "taken back"))
            .collect(Collectors.toList());
    return new SheetInput.Section(
        "What was taken back",
        sentences,
        facts,
        "By stage",
        List.of(
            new NumberTable(
                "Edits taken back, with their numbers in the parent's ledger",
                List.of("Edit", "Seconds", "Frame", "Frames", "Channel", "Stage", "Margin", "Why"),
                rows,
                link.undone() > rows.size()
                    ? "The first " + rows.size() + "; the file of decisions has them all."
                    : "")),
        List.of(
            new Figure(
                "Taken back, over time",
                "Number of edits that were taken back over the whole side.",
                "Where the original stands again.",
                Pictures.edits(density.build()))));
  }

  private static List<String> row(LedgerEdit edit, AudioFormat format, DecisionFile decisions) {
    double margin = edit.statistic() - edit.threshold();
    return List.of(
        Long.toString(edit.number()),
        String.format(Locale.ROOT, "%.4f", format.seconds(edit.start())),
        Long.toString(edit.start()),
        Long.toString(edit.frames()),
        format.channelName(edit.channel()),
        edit.stage(),
        Double.isFinite(margin) ? String.format(Locale.ROOT, "%.2f", margin) : "none",
        decisions.commentOn(edit));
  }
}
