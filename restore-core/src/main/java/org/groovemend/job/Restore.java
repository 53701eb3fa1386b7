package org.groovemend.job;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Crew;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputIsInputException;
import org.groovemend.delivery.OutputSet;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Dither;
import org.groovemend.ledger.Environment;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.ledger.Sha256;
import org.groovemend.measure.Decibels;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;

/** Restores one side: reads a transfer, writes a clean copy, its ledger, what was removed and a report; all of them or none. */
public final class Restore {

  static final String SILENT =
      "The side is digital silence: every sample is zero. There was nothing to treat and nothing was changed.";

  private final RestoreRequest request;
  private final Crew crew;
  private final Progress progress;
  private final boolean withPage;
  private final List<String> remarks = new ArrayList<>();
  private final RepairAmounts amounts = new RepairAmounts();

  private Restore(RestoreRequest request, Crew crew, Progress progress, boolean withPage) {
    this.request = request;
    this.crew = crew;
    this.progress = progress;
    this.withPage = withPage;
  }

  /**
   * Does the whole job.
   *
   * @throws org.groovemend.audio.InputRejectedException if the transfer cannot be taken; nothing is written then
   * @throws RequestRefusedException if what was asked for does not fit the side; nothing is written then
   * @throws org.groovemend.delivery.OutputExistsException if a result is there already and may not be replaced
   * @throws IOException if reading or writing fails; nothing is left behind then
   */
  public static RestoreOutcome run(RestoreRequest request, Crew crew, Progress progress)
      throws IOException {
    return run(request, crew, progress, true);
  }

  /** The same, with or without the page: drawing it takes longer than treating a very short side. */
  static RestoreOutcome run(RestoreRequest request, Crew crew, Progress progress, boolean withPage)
      throws IOException {
    return new Restore(request, crew, progress, withPage).run();
  }

  private RestoreOutcome run() throws IOException {
    try (SideReader side = SideFiles.open(request.side())) {
      AudioFormat format = side.format();
      LedgerNames names = LedgerNames.of(request.side(), format.containerBits());
      requireFree(names);
      remarks.addAll(side.notices());
      Survey survey = Survey.of(side, crew, progress);
      LeadInFinding leadIn = leadIn(survey, format, side.frames());
      boolean silent = survey.levels().silent();
      Treatment treatment =
          silent ? request.treatment().withStages(List.of()) : request.treatment();
      if (WholeWords.contradicted(format, survey.levels())) {
        remarks.add(WholeWords.remark(format, survey.levels()));
      }
      Plan plan = Plan.make(WholeWords.of(side, survey.levels()), treatment, leadIn, progress);
      remarks.addAll(plan.remarks());
      if (silent) {
        remarks.add(SILENT);
      }
      remarkOnStaleRemoved(names, plan);
      List<String> files = new ArrayList<>(List.of(names.restored(), names.ledger()));
      if (withPage) {
        files.add(0, names.report());
      }
      if (plan.chain().wholeSignal()) {
        files.add(0, names.removed());
      }
      RestoreOutcome outcome;
      try (OutputSet outputs =
          OutputSet.open(request.outFolder(), files, request.replace(), List.of(request.side()))) {
        outcome = treat(side, names, outputs, survey, leadIn, plan);
      }
      return outcome;
    }
  }

  /** Says so before the work is done, not after. */
  private void requireFree(LedgerNames names) throws IOException {
    for (String name :
        List.of(names.restored(), names.ledger(), names.removed(), names.report())) {
      Path file = request.outFolder().resolve(name);
      if (Files.exists(file) && Files.isSameFile(file, request.side())) {
        throw new OutputIsInputException(file, request.side());
      }
      if (!request.replace() && Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
        throw new OutputExistsException(file);
      }
    }
  }

  /** A removed file of an earlier run belongs to a ledger that this run replaces; it is named, never deleted. */
  private void remarkOnStaleRemoved(LedgerNames names, Plan plan) {
    Path stale = request.outFolder().resolve(names.removed());
    if (!plan.chain().wholeSignal() && Files.exists(stale, LinkOption.NOFOLLOW_LINKS)) {
      remarks.add(
          stale.getFileName() + " is left from an earlier run and does not belong to this ledger.");
    }
  }

  private RestoreOutcome treat(
      SideReader side,
      LedgerNames names,
      OutputSet outputs,
      Survey survey,
      LeadInFinding leadIn,
      Plan plan)
      throws IOException {
    AudioFormat format = side.format();
    SideChain chain = plan.chain();

    Path restoredFile = outputs.temporary(names.restored());
    RepairLog repairs = new RepairLog(restoredFile.getParent());
    long clipped;
    try (repairs) {
      try (WavWriter writer =
          WavWriter.create(
              restoredFile,
              format,
              side.frames(),
              BroadcastCopy.chunks(
                  side, stageKeys(chain), names, request.toolVersion(), request.now()),
              side)) {
        clipped =
            chain.run(
                WholeWords.of(side, survey.levels()),
                crew,
                request.treatment().ditherSeed(),
                (stage, repair) -> {
                  repairs.add(stage, repair);
                  amounts.add(stage, repair);
                },
                writer::write,
                progress);
      }
      repairs.finishWriting();
      if (clipped > 0) {
        remarks.add(
            clipped + " samples of the copy would have exceeded full scale and were limited to it.");
      }
      return record(side, names, outputs, survey, leadIn, plan, repairs, clipped);
    }
  }

  private LeadInFinding leadIn(Survey survey, AudioFormat format, long frames) {
    if (request.leadIn() == null) {
      return survey.leadIn();
    }
    long from = format.frames(request.leadIn().fromSeconds());
    long to = format.frames(request.leadIn().toSeconds());
    if (to > frames) {
      throw new RequestRefusedException(
          "the stated lead-in ends at " + request.leadIn().toSeconds()
              + " s, but the side is only "
              + String.format(Locale.ROOT, "%.3f", format.seconds(frames)) + " s long");
    }
    if (to <= from) {
      throw new RequestRefusedException(
          "the stated lead-in, " + request.leadIn().fromSeconds() + " to " + request.leadIn().toSeconds()
              + " s, is shorter than a sample");
    }
    return LeadInFinding.stated(from, to, frames);
  }

  private RestoreOutcome record(
      SideReader side,
      LedgerNames names,
      OutputSet outputs,
      Survey survey,
      LeadInFinding leadIn,
      Plan plan,
      RepairLog repairs,
      long clipped)
      throws IOException {
    SideChain chain = plan.chain();
    boolean whole = chain.wholeSignal();
    Path restoredFile = outputs.temporary(names.restored());
    Path ledgerFile = outputs.temporary(names.ledger());
    SideAccount account = new SideAccount(side.format(), side.frames());
    Bookkeeping.Sums sums;
    FileFacts restored;
    FileFacts removed = null;
    try (SideReader copy = SideFiles.open(restoredFile);
        LedgerWriter ledger =
            new LedgerWriter(new BufferedOutputStream(Files.newOutputStream(ledgerFile), 1 << 16))) {
      ledger.header(header(survey.facts(), chain));
      side.describeLayout(ledger::container);
      ledger.analysis("levels", survey.levels());
      ledger.analysis("leadIn", leadIn);
      for (Map.Entry<String, Object> finding : plan.findings().entrySet()) {
        ledger.analysis(finding.getKey(), finding.getValue());
      }
      if (whole) {
        RemovedWriter writer =
            new RemovedWriter(
                outputs.temporary(names.removed()), side.format(), side.frames(), crew);
        try (writer;
            RepairLog.Reader reader = repairs.read()) {
          sums =
              new Bookkeeping(side, copy, true, ledger, writer, account).run(reader, progress);
        }
        removed = writer.facts(names.removed());
      } else {
        try (RepairLog.Reader reader = repairs.read()) {
          sums = new Bookkeeping(side, copy, false, ledger, null, account).run(reader, progress);
        }
      }
      if (!sums.originalSamplesSha256().equals(survey.facts().samplesSha256())) {
        throw new IOException(
            request.side() + ": the samples changed while the side was treated; nothing was written.");
      }
      restored =
          new FileFacts(
              names.restored(),
              Files.size(restoredFile),
              Sha256.of(restoredFile),
              sums.restoredSamplesSha256(),
              side.frames(),
              copy.format(),
              copy.container());
      if (sums.changedSamples() > 0) {
        remarks.addAll(CarriedChunks.remarks(side.wavChunks()));
      }
      Map<String, Long> byStage = new LinkedHashMap<>();
      for (Stage stage : chain.stages()) {
        StageId id = stage.parameters().stage();
        if (stage instanceof RepairStage) {
          byStage.put(id.key(), sums.editsByStage().getOrDefault(id, 0L));
        }
      }
      ledger.totals(
          new LedgerTotals(
              sums.edits(), byStage, sums.changedSamples(), clipped, restored, removed, remarks));
      ledger.seal();

      RestoreOutcome outcome =
          new RestoreOutcome(
              survey.facts(),
              restored,
              removed,
              request.outFolder().resolve(names.restored()),
              request.outFolder().resolve(names.ledger()),
              whole ? request.outFolder().resolve(names.removed()) : null,
              request.outFolder().resolve(names.report()),
              stageKeys(chain),
              byStage,
              sums.changedSamples(),
              clipped,
              Decibels.ofPower(sums.all().meanSquare()),
              List.copyOf(remarks));
      if (withPage) {
        new RestorePage(request, side.parts(), survey, leadIn, plan, account, sums, amounts, outcome)
            .write(outputs.temporary(names.report()), names, side, copy, progress);
      }
      outputs.commit();
      return outcome;
    }
  }

  private static List<String> stageKeys(SideChain chain) {
    return chain.stages().stream().map(stage -> stage.parameters().stage().key()).toList();
  }

  private LedgerHeader header(FileFacts original, SideChain chain) {
    List<AppliedStage> applied = new ArrayList<>();
    for (Stage stage : chain.stages()) {
      applied.add(
          new AppliedStage(
              stage.parameters().stage().key(),
              stage instanceof RepairStage ? AppliedStage.REPAIR : AppliedStage.SIGNAL));
    }
    return new LedgerHeader(
        "groovemend",
        request.toolVersion(),
        request.now().truncatedTo(ChronoUnit.SECONDS).toString(),
        Environment.current(),
        original,
        request.treatment().captured().key(),
        request.treatment().asMap(),
        applied,
        chain.wholeSignal(),
        new Dither("tpdf", request.treatment().ditherSeed()));
  }
}
