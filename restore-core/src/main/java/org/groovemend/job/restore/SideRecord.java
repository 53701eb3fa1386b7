package org.groovemend.job.restore;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.side.CarriedChunks;
import org.groovemend.job.side.HashUnderWay;
import org.groovemend.job.side.Survey;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Dither;
import org.groovemend.ledger.Environment;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.listening.Passage;
import org.groovemend.measure.Decibels;
import org.groovemend.playback.CurveStage;
import org.groovemend.report.Listening;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.RotationSearch;
import org.groovemend.rotation.TickGatherer;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;

/**
 * What is written of a side once its clean copy is there: reads transfer and copy again and writes
 * ledger, removed signal and page.
 */
public final class SideRecord {

  /** Name of the finding of bare groove in the ledger. */
  public static final String LEAD_IN = "leadIn";

  private final RestoreRequest request;
  private final PreparedSide prepared;
  private final RepairAmounts amounts;
  private final SignalTaken taken;
  private final LeftPlaces left;
  private final List<String> remarks;
  private final ReportWish report;

  /**
   * @param taken what the stages that may change any sample did
   */
  SideRecord(
      RestoreRequest request,
      PreparedSide prepared,
      RepairAmounts amounts,
      SignalTaken taken,
      LeftPlaces left,
      List<String> remarks,
      ReportWish report) {
    this.request = request;
    this.prepared = prepared;
    this.amounts = amounts;
    this.taken = taken;
    this.left = left;
    this.remarks = new ArrayList<>(remarks);
    this.report = report;
  }

  /** Writes all of it to its temporary places. */
  RestoreOutcome write(RepairLog repairs, long clipped, Crew crew, Progress progress)
      throws IOException {
    SideReader side = prepared.side();
    LedgerNames names = prepared.names();
    OutputSet outputs = prepared.outputs();
    RotationFinding rotation = rotation(repairs);
    Path restoredFile = outputs.temporary(names.restored());
    try (SideReader copy = SideFiles.open(restoredFile);
        LedgerWriter ledger =
            new LedgerWriter(
                new BufferedOutputStream(
                    Files.newOutputStream(outputs.temporary(names.ledger())), 1 << 16));
        HashUnderWay fileHash = new HashUnderWay(restoredFile, crew)) {
      ledger.header(header());
      side.describeLayout(ledger::container);
      GrooveChange groove = groove(copy);
      findings(ledger, rotation, groove);
      SideAccount account =
          new SideAccount(
              side.format(), side.frames(), rotation, meters(copy, groove, repairs), curved());
      Compared compared = compare(copy, ledger, account, repairs, crew, progress);
      Bookkeeping.Sums sums = compared.sums();
      FileFacts restored =
          new FileFacts(
              names.restored(),
              Files.size(restoredFile),
              fileHash.digits(),
              sums.restoredSamplesSha256(),
              side.frames(),
              copy.format(),
              copy.container());
      if (sums.changedSamples() > 0) {
        remarks.addAll(CarriedChunks.remarks(side.wavChunks()));
      }
      Map<String, Long> byStage = editsByStage(sums);
      ledger.totals(
          new LedgerTotals(
              sums.edits(),
              byStage,
              sums.changedSamples(),
              clipped,
              restored,
              compared.removed(),
              remarks));
      String seal = ledger.seal();
      SideComparison comparison =
          new SideComparison(
              groove == null ? null : groove.asMap(), account.kept(), passages(account, groove));
      RestoreOutcome outcome = outcome(compared, restored, seal, byStage, clipped, comparison);
      if (report != ReportWish.NONE) {
        Listening listening =
            report == ReportWish.WITHOUT_CLIPS
                ? ListeningPage.withoutClips()
                : new ListeningPage(side, copy, request.treatment().ditherSeed())
                    .make(comparison.listening(), restoredFile.getParent(), crew, progress);
        new RestorePage(request, prepared, account, sums, amounts, taken, outcome)
            .write(
                outputs.temporary(names.report()),
                copy,
                ComparisonPage.of(side.format(), groove, prepared.chain(), comparison.keptMusic()),
                listening,
                crew,
                progress);
      }
      return outcome;
    }
  }

  private RotationFinding rotation(RepairLog repairs) throws IOException {
    TickGatherer ticks = new TickGatherer(prepared.side().format().sampleRateHz());
    try (RepairLog.Reader reader = repairs.read()) {
      for (LoggedRepair repair = reader.next(); repair != null; repair = reader.next()) {
        DiscDrawing.tick(
            ticks, repair.stage().key(), repair.start(), repair.evidence().statistic());
      }
    }
    return RotationSearch.of(ticks);
  }

  /** The noise floor, or null if there is none to measure. */
  private GrooveChange groove(SideReader copy) throws IOException {
    Survey survey = prepared.survey();
    return survey.levels().silent()
        ? null
        : GrooveChange.of(
            reference(), new SideChain(List.of()).reader(copy), prepared.leadIn(), survey.track());
  }

  private RangeReader reference() {
    return prepared.plan().transferToCompare(prepared.side());
  }

  /** The same as it comes by, or null without a curve. */
  private CurvedReference curved() {
    CurveStage curve = prepared.plan().curve();
    return curve == null
        ? null
        : new CurvedReference(
            curve.parameters(), prepared.side().format(), Bookkeeping.BLOCK_FRAMES);
  }

  /** None if only places were repaired: every other sample is the same then. */
  private List<KeptMusic.Meter> meters(SideReader copy, GrooveChange groove, RepairLog repairs)
      throws IOException {
    return report != ReportWish.NONE && prepared.chain().wholeSignal()
        ? KeptMusic.meters(
            reference(), new SideChain(List.of()).reader(copy), groove, repairs, music())
        : List.of();
  }

  private MusicSpan music() {
    return MusicSpan.of(prepared.survey().leadIn(), prepared.leadIn(), prepared.side().frames());
  }

  private List<Passage> passages(SideAccount account, GrooveChange groove) {
    return report == ReportWish.NONE ? List.of() : account.passages(music(), groove);
  }

  private void findings(LedgerWriter ledger, RotationFinding rotation, GrooveChange groove)
      throws IOException {
    ledger.analysis("levels", prepared.survey().levels());
    ledger.analysis(LEAD_IN, prepared.leadIn());
    for (Map.Entry<String, Object> finding :
        prepared.plan().findings(prepared.side().format().sampleRateHz()).entrySet()) {
      ledger.analysis(finding.getKey(), finding.getValue());
    }
    for (Map.Entry<String, Object> finding : SignalWatches.findings(taken).entrySet()) {
      ledger.analysis(finding.getKey(), finding.getValue());
    }
    if (prepared.plan().repairs()) {
      ledger.analysis("rotation", rotation);
    }
    if (groove != null) {
      ledger.analysis(GrooveChange.FINDING, groove.asMap());
    }
    if (!left.isEmpty()) {
      ledger.analysis(LeftPlaces.FINDING, left.finding());
    }
  }

  /** What comparing transfer and copy gave; removed is null if only repairs ran. */
  private record Compared(Bookkeeping.Sums sums, FileFacts removed) {}

  private Compared compare(
      SideReader copy,
      LedgerWriter ledger,
      SideAccount account,
      RepairLog repairs,
      Crew crew,
      Progress progress)
      throws IOException {
    SideReader side = prepared.side();
    Compared compared;
    try (RepairLog.Reader reader = repairs.read()) {
      if (prepared.chain().wholeSignal()) {
        String name = prepared.names().removed();
        RemovedWriter writer =
            new RemovedWriter(
                prepared.outputs().temporary(name), side.format(), side.frames(), crew);
        Bookkeeping.Sums sums;
        try (writer) {
          sums =
              new Bookkeeping(side, copy, true, ledger, writer, account, crew)
                  .run(reader, progress);
        }
        compared = new Compared(sums, writer.facts(name));
      } else {
        compared =
            new Compared(
                new Bookkeeping(side, copy, false, ledger, null, account, crew)
                    .run(reader, progress),
                null);
      }
    }
    if (!compared
        .sums()
        .originalSamplesSha256()
        .equals(prepared.survey().facts().samplesSha256())) {
      throw new IOException(
          request.side()
              + ": the samples changed while the side was treated; nothing was written.");
    }
    return compared;
  }

  private Map<String, Long> editsByStage(Bookkeeping.Sums sums) {
    Map<String, Long> byStage = new LinkedHashMap<>();
    for (Stage stage : prepared.chain().stages()) {
      StageId id = stage.parameters().stage();
      if (stage instanceof RepairStage) {
        byStage.put(id.key(), sums.editsByStage().getOrDefault(id, 0L));
      }
    }
    return byStage;
  }

  private RestoreOutcome outcome(
      Compared compared,
      FileFacts restored,
      String seal,
      Map<String, Long> byStage,
      long clipped,
      SideComparison comparison) {
    Path folder = request.outFolder();
    LedgerNames names = prepared.names();
    return new RestoreOutcome(
        prepared.survey().facts(),
        restored,
        compared.removed(),
        folder.resolve(names.restored()),
        folder.resolve(names.ledger()),
        prepared.chain().wholeSignal() ? folder.resolve(names.removed()) : null,
        folder.resolve(names.report()),
        seal,
        prepared.stageKeys(),
        byStage,
        compared.sums().changedSamples(),
        clipped,
        Decibels.ofPower(compared.sums().all().meanSquare()),
        comparison,
        List.copyOf(remarks));
  }

  private LedgerHeader header() {
    List<AppliedStage> applied = new ArrayList<>();
    for (Stage stage : prepared.chain().stages()) {
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
        prepared.survey().facts(),
        request.treatment().capturedThrough().key(),
        request.treatment().asMap(),
        applied,
        prepared.chain().wholeSignal(),
        new Dither("tpdf", request.treatment().ditherSeed()));
  }
}
