package org.groovemend.job.undo;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.FileRebuilder;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.Verdict;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputIsInputException;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.restore.LoggedRepair;
import org.groovemend.job.restore.LoggedRepairs;
import org.groovemend.job.restore.NotRepeatedException;
import org.groovemend.job.restore.RepairLog;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.EditReader;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.PatchedWords;
import org.groovemend.ledger.Reversal;
import org.groovemend.ledger.VerificationException;
import org.groovemend.lineage.Forebears;
import org.groovemend.sealed.SealedDocumentException;
import org.groovemend.stage.Crew;

/**
 * Takes edits of a copy back: writes a new copy with a ledger of its own that names its parent. The
 * parent and its files are only read.
 *
 * <p>What a repair that stays took away it takes away again, to the last bit; where a repair is
 * taken back, the samples go into the stages that follow as they were in the original. Where only
 * repairs ran and none that stays meets one that is taken back, the original's words are put back
 * into the copy. Otherwise the treatment is run again from the rebuilt original, and nothing
 * appears unless it is proved to be the same treatment.
 */
public final class Undo {

  private static final int BLOCK_FRAMES = 1 << 14;

  private final UndoRequest request;
  private final Crew crew;
  private final Progress progress;
  private final Repetition.Maker maker;
  private final boolean alwaysReplay;

  /**
   * @param alwaysReplay true to run the treatment again also where that is not needed, and even if
   *     nothing is taken back
   */
  Undo(
      UndoRequest request,
      Crew crew,
      Progress progress,
      Repetition.Maker maker,
      boolean alwaysReplay) {
    this.request = request;
    this.crew = crew;
    this.progress = progress;
    this.maker = maker;
    this.alwaysReplay = alwaysReplay;
  }

  /**
   * Does the whole job.
   *
   * @throws RequestRefusedException if the choice cannot be, or meets no edit
   * @throws VerificationException if a file is not the one the ledger speaks of, or the treatment
   *     cannot be repeated
   * @throws SealedDocumentException if the decisions were altered or are about another ledger
   * @throws OutputExistsException if a result is there already and may not be replaced
   */
  public static UndoOutcome run(UndoRequest request, Crew crew, Progress progress)
      throws IOException, VerificationException {
    return new Undo(request, crew, progress, Replay::of, false).run();
  }

  /** What {@link #run} would take back; writes nothing, and looks at nothing but the ledger. */
  public static UndoCounts count(UndoRequest request) throws IOException {
    Ledger parent = Ledger.open(request.ledger());
    UndoCounts counts = UndoCounts.of(parent, decisions(request, parent));
    requireAny(counts, parent);
    return counts;
  }

  private static DecisionFile decisions(UndoRequest request, Ledger parent) throws IOException {
    if (request.choice() != null) {
      return request.choice().decide(parent, request.now());
    }
    DecisionFile read = DecisionDocument.read(request.decisions());
    if (!read.ledger().seal().equals(parent.seal())) {
      throw new SealedDocumentException(
          request.decisions()
              + " was made for another ledger, "
              + read.ledger().name()
              + " of seal "
              + read.ledger().seal()
              + ", not for "
              + FilePath.name(parent.path())
              + "; nothing was written.");
    }
    return read;
  }

  private static void requireAny(UndoCounts counts, Ledger parent) {
    if (counts.undone() == 0) {
      throw new RequestRefusedException(
          "nothing to take back: none of the "
              + counts.edits()
              + " edits of "
              + FilePath.name(parent.path())
              + " is meant; nothing was written. 'groovemend edits' lists them with their numbers");
    }
  }

  UndoOutcome run() throws IOException, VerificationException {
    Ledger parent = Ledger.open(request.ledger());
    DecisionFile decisions = decisions(request, parent);
    UndoCounts counts = UndoCounts.of(parent, decisions);
    if (!alwaysReplay) {
      requireAny(counts, parent);
    }
    AudioFormat format = parent.header().original().format();
    LedgerNames names = UndoneNames.of(request.ledger(), request.name(), format.containerBits());
    LedgerFiles files = request.given().or(LedgerFiles.beside(parent));
    requireFree(names, files);
    requireFiles(parent, files);
    List<String> written =
        new ArrayList<>(List.of(UndoneNames.decisions(names), names.restored(), names.ledger()));
    if (parent.header().wholeSignal()) {
      written.add(0, names.removed());
    }
    Predicate<LedgerEdit> undoes = edit -> decisions.verdictOf(edit) == Verdict.UNDO;
    try (SideReader restored = SideFiles.open(files.restored());
        OutputSet outputs =
            OutputSet.open(request.folder(), written, request.replace(), request.inputs(files))) {
      // not the file once more: a review may have changed it since
      byte[] document = DecisionDocument.of(decisions).bytes();
      UndoneCopy copy =
          new UndoneCopy(request, parent, undoes, document, counts, names, outputs, crew);
      UndoOutcome outcome =
          counts.replay() || alwaysReplay
              ? replay(copy, parent, undoes, restored, files, outputs)
              : patch(copy, parent, undoes, restored);
      outputs.commit();
      return outcome;
    }
  }

  /** Says so before the work is done, not after. */
  private void requireFree(LedgerNames names, LedgerFiles files) throws IOException {
    for (String name :
        List.of(names.restored(), names.ledger(), names.removed(), UndoneNames.decisions(names))) {
      Path file = request.folder().resolve(name);
      for (Path input : request.inputs(files)) {
        if (Files.exists(file) && Files.exists(input) && Files.isSameFile(file, input)) {
          throw new OutputIsInputException(file, input);
        }
      }
      if (!request.replace() && Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
        throw new OutputExistsException(file);
      }
    }
  }

  private static void requireFiles(Ledger parent, LedgerFiles files) throws VerificationException {
    if (files.restored() == null) {
      throw new VerificationException(
          "The restored file "
              + parent.totals().restored().name()
              + " is not beside the ledger; say where it is with --restored. Nothing was written.",
          List.of());
    }
    if (parent.header().wholeSignal() && files.removed() == null) {
      throw new VerificationException(
          "The removed file "
              + parent.totals().removed().name()
              + " is not beside the ledger, and the treatment cannot be run again without it; say where it is with"
              + " --removed. Nothing was written.",
          List.of());
    }
  }

  /** Puts the original's words back where nothing else was done to them. */
  private UndoOutcome patch(
      UndoneCopy copy, Ledger parent, Predicate<LedgerEdit> undoes, SideReader restored)
      throws IOException, VerificationException {
    try (PatchedWords words = new PatchedWords(parent, restored, undoes);
        WavWriter writer = copy.open(restored)) {
      long[][] block = new long[words.format().channels()][BLOCK_FRAMES];
      for (long at = 0; at < words.frames(); at += BLOCK_FRAMES) {
        int count = (int) Math.min(BLOCK_FRAMES, words.frames() - at);
        words.readWords(at, count, block, 0);
        writer.write(block, 0, count);
        progress.at("putting back", at + count, words.frames());
      }
    }
    try (PatchedWords original = new PatchedWords(parent, restored, edit -> true);
        EditReader edits = parent.edits()) {
      return copy.record(original, keptOf(edits, undoes), edit -> true, Map.of(), 0, progress);
    }
  }

  private static LoggedRepairs keptOf(EditReader edits, Predicate<LedgerEdit> undoes) {
    return () -> {
      LedgerEdit edit = edits.next();
      while (edit != null && undoes.test(edit)) {
        edit = edits.next();
      }
      return edit == null ? null : LoggedRepair.of(edit);
    };
  }

  /** Runs the treatment again from the rebuilt original. */
  private UndoOutcome replay(
      UndoneCopy copy,
      Ledger parent,
      Predicate<LedgerEdit> undoes,
      SideReader restored,
      LedgerFiles files,
      OutputSet outputs)
      throws IOException, VerificationException {
    // apart from the results, whose names it could have
    Path folder =
        Files.createDirectory(outputs.temporary(copy.names().ledger()).resolveSibling("original"));
    Path file = folder.resolve(parent.header().original().name());
    try {
      rebuild(file, restored, files);
      try (SideReader side = SideFiles.open(file)) {
        return replay(copy, parent, undoes, restored, side, folder);
      } catch (NotRepeatedException e) {
        throw e.told(parent, request.toolVersion());
      }
    } finally {
      Files.deleteIfExists(file);
      Files.deleteIfExists(folder);
    }
  }

  /** The first treatment's ledger, if the one that edits are taken from is a later one. */
  private Ledger first(Ledger ledger) throws IOException {
    List<Ledger> forebears = new Forebears(request.parents()).of(ledger);
    Ledger oldest = forebears.isEmpty() ? null : forebears.get(forebears.size() - 1);
    return oldest == null || oldest.header().parent() != null ? null : oldest;
  }

  private void rebuild(Path file, SideReader restored, LedgerFiles files)
      throws IOException, VerificationException {
    progress.at("rebuilding the original", 0, 1);
    try (SideReader removed = files.removed() == null ? null : SideFiles.open(files.removed());
        OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16)) {
      new Reversal(FileRebuilder::new).revert(request.ledger(), restored, removed, out);
    }
  }

  private UndoOutcome replay(
      UndoneCopy copy,
      Ledger parent,
      Predicate<LedgerEdit> undoes,
      SideReader restored,
      SideReader side,
      Path folder)
      throws IOException, VerificationException {
    Repetition again = maker.of(parent, side, crew, progress);
    WordSource words = again.words();
    try (RepairLog kept = new RepairLog(folder);
        ReplayProof proof = new ReplayProof(parent, undoes, side, restored, kept, first(parent))) {
      long clipped;
      try (WavWriter writer = copy.open(restored)) {
        clipped =
            again
                .chain()
                .run(
                    words,
                    crew,
                    parent.header().dither().seed(),
                    (stage, repair) -> {},
                    proof,
                    again.watches(),
                    writer::write,
                    progress);
      }
      proof.finish();
      kept.finishWriting();
      Map<String, Object> findings = copy.measured(again);
      if (proof.finding() != null) {
        findings.put(ReplayProof.WITHOUT_EFFECT, proof.finding());
      }
      try (RepairLog.Reader repairs = kept.read();
          UntouchedEdits untouched = new UntouchedEdits(parent, undoes)) {
        return copy.record(side, repairs, untouched, findings, clipped, progress);
      }
    }
  }
}
