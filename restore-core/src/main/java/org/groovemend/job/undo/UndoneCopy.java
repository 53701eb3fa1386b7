package org.groovemend.job.undo;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.restore.Bookkeeping;
import org.groovemend.job.restore.GrooveChange;
import org.groovemend.job.restore.LoggedRepairs;
import org.groovemend.job.restore.RemovedWriter;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.WallWeights;
import org.groovemend.job.side.BroadcastCopy;
import org.groovemend.job.side.HashUnderWay;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Environment;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.ledger.Sha256;
import org.groovemend.ledger.VerificationException;
import org.groovemend.lineage.ParentPlace;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/** Writes what belongs to a copy of which edits were taken back, to its temporary places. */
final class UndoneCopy {

  /** Findings that speak of the restored file or of the run: of no use for another copy. */
  private static final Set<String> OF_THE_RUN =
      Set.of(
          GrooveChange.FINDING,
          "rumbleTaken",
          "curveTaken",
          WallWeights.FINDING,
          ReplayProof.WITHOUT_EFFECT,
          ParentPlace.FINDING);

  private final UndoRequest request;
  private final Ledger parent;
  private final Predicate<LedgerEdit> undoes;
  private final byte[] document;
  private final UndoCounts counts;
  private final LedgerNames names;
  private final OutputSet outputs;
  private final Crew crew;

  /**
   * @param undoes the edits that are taken back
   * @param document the bytes of the file of decisions
   */
  UndoneCopy(
      UndoRequest request,
      Ledger parent,
      Predicate<LedgerEdit> undoes,
      byte[] document,
      UndoCounts counts,
      LedgerNames names,
      OutputSet outputs,
      Crew crew) {
    this.request = request;
    this.parent = parent;
    this.undoes = undoes;
    this.document = document;
    this.counts = counts;
    this.names = names;
    this.outputs = outputs;
    this.crew = crew;
  }

  LedgerNames names() {
    return names;
  }

  private Path restoredFile() {
    return outputs.temporary(names.restored());
  }

  /**
   * Begins the new copy.
   *
   * @param restored the parent's copy, whose chunks it takes over
   */
  WavWriter open(SideReader restored) throws IOException {
    FileFacts original = parent.header().original();
    boolean joined =
        parent.header().stages().stream().anyMatch(s -> s.name().equals(StageId.MONO.key()));
    return WavWriter.create(
        restoredFile(),
        original.format(),
        original.frames(),
        BroadcastCopy.ofUndone(
            restored, inWords(), joined, names, request.toolVersion(), request.now()),
        restored);
  }

  /** "3 of 40 edits of side.ledger.jsonl taken back". */
  private String inWords() {
    return counts.undone()
        + " of "
        + counts.edits()
        + " edits of "
        + FilePath.name(parent.path())
        + " taken back";
  }

  /** What a run measured, once the copy is whole. */
  Map<String, Object> measured(Repetition run) throws IOException {
    try (SideReader copy = SideFiles.open(restoredFile())) {
      return new LinkedHashMap<>(run.findings(copy));
    }
  }

  /**
   * Writes ledger, removed file and decisions, comparing original and copy word by word.
   *
   * @param original its words
   * @param kept the repairs that stay, in the order of the ledger
   * @param untouched edits whose words must be the parent's
   * @param findings in place of the parent's
   */
  UndoOutcome record(
      WordSource original,
      LoggedRepairs kept,
      Predicate<LedgerEdit> untouched,
      Map<String, Object> findings,
      long clipped,
      Progress progress)
      throws IOException, VerificationException {
    Path ledgerFile = outputs.temporary(names.ledger());
    boolean whole = parent.header().wholeSignal();
    try (OutputStream out = outputs.create(UndoneNames.decisions(names))) {
      out.write(document);
    }
    try (SideReader copy = SideFiles.open(restoredFile());
        LedgerWriter ledger =
            new LedgerWriter(new BufferedOutputStream(Files.newOutputStream(ledgerFile), 1 << 16));
        HashUnderWay fileHash = new HashUnderWay(restoredFile(), crew);
        SameEdits same = new SameEdits(parent, undoes, untouched)) {
      ledger.header(header());
      parent.describeOriginal(ledger::container);
      writeFindings(ledger, findings);
      Bookkeeping.Sums sums;
      FileFacts removed = null;
      if (whole) {
        RemovedWriter writer =
            new RemovedWriter(
                outputs.temporary(names.removed()), original.format(), original.frames(), crew);
        try (writer) {
          sums =
              new Bookkeeping(original, copy, true, ledger, writer, same, crew).run(kept, progress);
        }
        removed = writer.facts(names.removed());
      } else {
        sums = new Bookkeeping(original, copy, false, ledger, null, same, crew).run(kept, progress);
      }
      same.finish(sums.originalSamplesSha256());
      FileFacts restored =
          new FileFacts(
              names.restored(),
              Files.size(restoredFile()),
              fileHash.digits(),
              sums.restoredSamplesSha256(),
              original.frames(),
              copy.format(),
              copy.container());
      List<String> remarks = remarks(clipped);
      ledger.totals(
          new LedgerTotals(
              sums.edits(),
              editsByStage(sums),
              sums.changedSamples(),
              clipped,
              restored,
              removed,
              remarks));
      String seal = ledger.seal();
      Path folder = request.folder();
      return new UndoOutcome(
          counts,
          folder.resolve(names.restored()),
          folder.resolve(names.ledger()),
          whole ? folder.resolve(names.removed()) : null,
          folder.resolve(UndoneNames.decisions(names)),
          seal,
          sums.changedSamples(),
          clipped,
          remarks);
    }
  }

  private LedgerHeader header() {
    LedgerHeader of = parent.header();
    long before = of.parent() == null ? 0 : of.parent().undoneInAll();
    return new LedgerHeader(
        "groovemend",
        request.toolVersion(),
        request.now().truncatedTo(ChronoUnit.SECONDS).toString(),
        Environment.current(),
        of.original(),
        of.capturedThrough(),
        of.treatment(),
        of.stages(),
        of.wholeSignal(),
        of.dither(),
        new LedgerParent(
            FilePath.name(parent.path()),
            parent.seal(),
            UndoneNames.decisions(names),
            Sha256.of(document),
            counts.edits(),
            counts.undone(),
            before + counts.undone()));
  }

  /** The parent's, in its order, those of the run anew where it measured them. */
  private void writeFindings(LedgerWriter ledger, Map<String, Object> findings) throws IOException {
    Set<String> written = new LinkedHashSet<>();
    for (AnalysisRecord analysis : parent.analyses()) {
      if (findings.containsKey(analysis.name())) {
        ledger.analysis(analysis.name(), findings.get(analysis.name()));
        written.add(analysis.name());
      } else if (!OF_THE_RUN.contains(analysis.name())) {
        ledger.analysis(analysis.name(), analysis.result());
      } else if (findings.isEmpty() && analysis.name().equals(ReplayProof.WITHOUT_EFFECT)) {
        ledger.analysis(analysis.name(), analysis.result());
      }
    }
    for (Map.Entry<String, Object> finding : findings.entrySet()) {
      if (!written.contains(finding.getKey())) {
        ledger.analysis(finding.getKey(), finding.getValue());
      }
    }
    Map<String, Object> place =
        ParentPlace.between(request.folder(), FilePath.folder(parent.path()));
    if (place != null) {
      ledger.analysis(ParentPlace.FINDING, place);
    }
  }

  private List<String> remarks(long clipped) {
    List<String> remarks = new ArrayList<>(parent.totals().warnings());
    remarks.removeIf(remark -> remark.endsWith(Restore.LIMITED));
    if (clipped > 0) {
      remarks.add(clipped + Restore.LIMITED);
    }
    remarks.add(inWords() + ".");
    return remarks;
  }

  private Map<String, Long> editsByStage(Bookkeeping.Sums sums) {
    Map<String, Long> byStage = new LinkedHashMap<>();
    for (AppliedStage stage : parent.header().stages()) {
      if (stage.kind().equals(AppliedStage.REPAIR)) {
        StageId id = StageId.ofKey(stage.name()).orElseThrow();
        byStage.put(stage.name(), sums.editsByStage().getOrDefault(id, 0L));
      }
    }
    return byStage;
  }
}
