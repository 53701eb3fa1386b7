package org.groovemend.job.account;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestorePage;
import org.groovemend.job.restore.SidePictures;
import org.groovemend.job.restore.StageAccounts;
import org.groovemend.job.side.LedgerLines;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.ledger.VerificationException;
import org.groovemend.ledger.Verifier;
import org.groovemend.report.DoubtfulEdits;
import org.groovemend.report.EditDensityBuilder;
import org.groovemend.report.EditLine;
import org.groovemend.report.Fact;
import org.groovemend.report.Figure;
import org.groovemend.report.NumberTable;
import org.groovemend.report.Pictures;
import org.groovemend.report.SheetInput;
import org.groovemend.report.SheetPage;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/**
 * The page of a copy as its ledger and files tell it, without any stage being run: above all of a
 * copy of which edits were taken back. Clips and what became of music that nobody wanted changed
 * are of the run of the stages, and stand in the page of {@link Restore} alone.
 */
public final class LedgerReport {

  private static final int DOUBTFUL_EDITS = 10;

  private final Account.Request request;
  private final Ledger ledger;
  private final List<Check> checks;
  private final AudioFormat format;

  private LedgerReport(Account.Request request, Ledger ledger, List<Check> checks) {
    this.request = request;
    this.checks = checks;
    this.ledger = ledger;
    format = ledger.header().original().format();
  }

  /**
   * Checks everything, then writes the page, whole or not at all.
   *
   * @return seal of the ledger
   * @throws VerificationException if something does not hold: there is no honest page of it
   */
  public static String run(
      Account.Request request, Path out, boolean replace, Crew crew, Progress progress)
      throws IOException, VerificationException {
    Path whole = out.toAbsolutePath();
    String name = FilePath.name(whole);
    Ledger ledger = Account.ledger(request);
    try (OutputSet outputs =
        OutputSet.open(
            FilePath.folder(whole), List.of(name), replace, Account.inputs(request, ledger))) {
      LedgerReport report = new LedgerReport(request, ledger, Account.check(request));
      StringBuilder page = new StringBuilder();
      SheetPage.write(report.input(crew, progress), page);
      try (OutputStream stream = outputs.create(name)) {
        stream.write(page.toString().getBytes(StandardCharsets.UTF_8));
      }
      outputs.commit();
      return ledger.seal();
    }
  }

  private SheetInput input(Crew crew, Progress progress) throws IOException {
    AccountSurvey survey = AccountSurvey.of(ledger);
    AccountWords words = new AccountWords(ledger, survey);
    LedgerFiles files = request.files().or(LedgerFiles.beside(ledger));
    AccountSurvey.Compared compared = null;
    List<Figure> pictures = List.of();
    try (LedgerSides sides = LedgerSides.open(ledger, files)) {
      if (sides.both()) {
        compared = AccountSurvey.compare(sides.original(), sides.restored(), progress);
        // both are drawn at once, and a rebuilt transfer reads the copy too: each has its own
        // reader
        try (SideReader copy = SideFiles.open(files.restored())) {
          pictures =
              SidePictures.of(
                      sides.original(), compared.before(), copy, compared.after(), crew, progress)
                  .figures();
        }
      }
    }
    List<SheetInput.Section> sections = new ArrayList<>();
    sections.add(files());
    if (ledger.header().parent() != null) {
      sections.add(new TakenBack(ledger, request.parents()).section());
    }
    sections.add(done(survey, words.amount(compared)));
    sections.add(
        section(
            "Before and after",
            pictures.isEmpty()
                ? List.of(
                    "No pictures: the copy, or what is needed to have the transfer, is not at hand.")
                : List.of(),
            pictures));
    sections.add(edits(survey));
    List<String> doubts = new ArrayList<>(words.doubts());
    doubts.addAll(AccountDescent.doubts(checks));
    sections.add(section("Cautions and doubts", doubts, List.of()));
    sections.add(section("Prove it, hear it, or take it back", commands(), List.of()));
    return new SheetInput(
        "Treatment sheet",
        ledger.header().original().name(),
        summary(),
        "Prepared from the ledger by "
            + request.program()
            + ", "
            + DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm 'UTC'", Locale.ROOT)
                .format(request.now().atOffset(ZoneOffset.UTC))
            + ".",
        sections,
        true);
  }

  private static SheetInput.Section section(
      String title, List<String> sentences, List<Figure> figures) {
    return new SheetInput.Section(title, sentences, List.of(), "", List.of(), figures);
  }

  private String summary() {
    LedgerTotals totals = ledger.totals();
    LedgerParent parent = ledger.header().parent();
    StringBuilder text = new StringBuilder();
    if (parent != null) {
      text.append(String.format(Locale.ROOT, "%,d of %,d", parent.undone(), parent.edits()))
          .append(parent.undone() == 1 ? " edits was" : " edits were")
          .append(" taken back. ");
    }
    if (totals.changedSamples() == 0) {
      return text.append("No sample differs from the original.").toString();
    }
    text.append(totals.edits() == 0 ? "No" : String.format(Locale.ROOT, "%,d", totals.edits()))
        .append(totals.edits() == 1 ? " place is" : " places are")
        .append(" repaired");
    if (ledger.header().wholeSignal()) {
      text.append("; changed over the whole side: ")
          .append(
              String.join(
                  ", ",
                  ledger.header().stages().stream()
                      .filter(stage -> !stage.kind().equals(AppliedStage.REPAIR))
                      .map(LedgerReport::name)
                      .map(name -> name.toLowerCase(Locale.ROOT))
                      .toList()));
    }
    boolean back =
        checks.stream()
            .anyMatch(
                c -> c.name().equals(Verifier.REVERSAL) && c.outcome() == Check.Outcome.HOLDS);
    return text.append(
            back
                ? ". That the original comes back byte for byte was tried for this page, and it did."
                : ". Whether the original comes back could not be tried for this page: not all files were at hand.")
        .toString();
  }

  private static String name(AppliedStage stage) {
    return StageId.ofKey(stage.name()).map(StageAccounts::name).orElse(stage.name());
  }

  private SheetInput.Section files() {
    LedgerHeader header = ledger.header();
    List<Fact> facts = new ArrayList<>();
    facts.addAll(LedgerLines.file("Original", header.original()));
    facts.addAll(LedgerLines.file("Copy", ledger.totals().restored()));
    if (ledger.totals().removed() != null) {
      facts.addAll(LedgerLines.file("Removed", ledger.totals().removed()));
    }
    facts.add(
        new Fact(
            "Ledger",
            FilePath.name(request.ledger()),
            "",
            "Made by "
                + header.tool()
                + " "
                + header.toolVersion()
                + ", "
                + header.createdUtc()
                + ". Its chain and seal hold."));
    facts.add(LedgerLines.fingerprint(ledger.seal()));
    return new SheetInput.Section(
        "The side and its files",
        AccountDescent.proved(checks),
        facts,
        "Files of this copy",
        List.of(),
        List.of());
  }

  private SheetInput.Section done(AccountSurvey survey, List<String> amount) {
    List<Fact> facts = new ArrayList<>();
    for (AppliedStage stage : ledger.header().stages()) {
      AccountSurvey.Repairs repairs = survey.of(stage.name());
      boolean repair = stage.kind().equals(AppliedStage.REPAIR);
      facts.add(
          new Fact(
              name(stage),
              repair ? String.format(Locale.ROOT, "%,d", repairs.places()) : "whole signal",
              repair ? (repairs.places() == 1 ? "edit" : "edits") : "",
              repair
                  ? repairs.places() == 0
                      ? "Nothing is changed by it."
                      : String.format(
                          Locale.ROOT,
                          "%.3f s of the side lie in them, the longest lasts %.2f ms.",
                          format.seconds(repairs.frames()),
                          1000 * format.seconds(repairs.longest()))
                  : "Any sample may differ."));
    }
    List<String> sentences = new ArrayList<>(amount);
    sentences.add(
        facts.isEmpty()
            ? "No treatment was applied."
            : "Every setting stands in the ledger, under treatment.");
    return new SheetInput.Section(
        "What was done", sentences, facts, "Stages, in their order", List.of(), List.of());
  }

  private SheetInput.Section edits(AccountSurvey survey) throws IOException {
    if (survey.all().places() == 0) {
      return section("Where the edits lie", List.of("No place is edited singly."), List.of());
    }
    EditDensityBuilder density =
        new EditDensityBuilder(format, ledger.header().original().frames(), Pictures.EDIT_COLUMNS);
    DoubtfulEdits doubtful = new DoubtfulEdits(DOUBTFUL_EDITS);
    ledger.forEachEdit(
        edit -> {
          density.add(edit.channel(), edit.start(), edit.end());
          doubtful.offer(LedgerLines.edit(edit));
        });
    List<List<String>> rows = new ArrayList<>();
    for (EditLine e : doubtful.lines()) {
      rows.add(
          List.of(
              Long.toString(e.number()),
              String.format(Locale.ROOT, "%.4f", format.seconds(e.start())),
              Long.toString(e.start()),
              Long.toString(e.end() - e.start()),
              format.channelName(e.channel()),
              e.stage(),
              String.format(Locale.ROOT, "%.2f", e.statistic()),
              String.format(Locale.ROOT, "%.2f", e.threshold())));
    }
    return new SheetInput.Section(
        "Where the edits lie",
        List.of(DoubtfulEdits.RULE),
        List.of(),
        "",
        List.of(
            new NumberTable(
                "The most doubtful edits that stay, most doubtful first",
                List.of(
                    "Edit",
                    "Seconds",
                    "Frame",
                    "Frames",
                    "Channel",
                    "Stage",
                    "Statistic",
                    "Threshold"),
                rows,
                "")),
        List.of(RestorePage.editsOverTime(density.build())));
  }

  private List<String> commands() {
    String name = RestorePage.quoted(FilePath.name(request.ledger()));
    List<String> commands = new ArrayList<>();
    commands.add("Prove that everything still holds: groovemend verify " + name);
    commands.add("See and hear every edit, and decide about it: groovemend review " + name);
    commands.add(
        "Get the original file back, byte for byte: groovemend revert " + name + " --out FILE");
    commands.add(
        "This page was made from ledger and files; no stage was run for it. Clips, and how far music was kept, are of the run of"
            + " the stages and stand in the page that 'restore' writes.");
    return commands;
  }
}
