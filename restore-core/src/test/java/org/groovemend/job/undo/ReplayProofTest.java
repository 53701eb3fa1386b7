package org.groovemend.job.undo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.chain.MemorySide;
import org.groovemend.chain.RepairSelection.Share;
import org.groovemend.job.restore.NotRepeatedException;
import org.groovemend.job.restore.RepairLog;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Dither;
import org.groovemend.ledger.Environment;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.ledger.RangeWords;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Repairs held against a ledger by hand: found again, taken back, never an edit, or strange. */
class ReplayProofTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(8_000, 1, 16);
  private static final int FRAMES = 100;
  private static final String HEX = "0".repeat(64);

  @TempDir Path folder;

  private final long[][] original = new long[1][FRAMES];
  private final long[][] restored = new long[1][FRAMES];

  private static Repair repair(long start, int length) {
    return new Repair(
        0,
        start,
        new double[length],
        new Repair.Evidence(5, 4, "lsar", 3, start, length, Double.NEGATIVE_INFINITY));
  }

  /** A ledger whose edits are these repairs; in their ranges other words are restored. */
  private Ledger ledger(LedgerParent parent, List<Map<String, Object>> known, Repair... edits)
      throws IOException {
    return ledger("side.ledger.jsonl", parent, known, edits);
  }

  private Ledger ledger(
      String name, LedgerParent parent, List<Map<String, Object>> known, Repair... edits)
      throws IOException {
    Path file = folder.resolve(name);
    FileFacts facts = new FileFacts("side.wav", 2L * FRAMES, HEX, HEX, FRAMES, FORMAT, "WAV");
    RangeWords words = new RangeWords(FORMAT);
    try (LedgerWriter writer = new LedgerWriter(Files.newOutputStream(file))) {
      writer.header(
          new LedgerHeader(
              "groovemend",
              "0",
              "2026-03-01T12:00:00Z",
              Environment.current(),
              facts,
              "flat",
              Map.of(),
              List.of(new AppliedStage("clicks", AppliedStage.REPAIR)),
              false,
              Dither.none(),
              parent));
      writer.container(new LayoutPiece.PcmFrames(0, FRAMES, false));
      if (!known.isEmpty()) {
        writer.analysis(ReplayProof.WITHOUT_EFFECT, Map.of("places", known.size(), "list", known));
      }
      int number = 1;
      for (Repair edit : edits) {
        for (long i = edit.start(); i < edit.end(); i++) {
          restored[0][(int) i] = 7;
        }
        writer.edit(
            new LedgerEdit(
                number++,
                "clicks",
                0,
                edit.start(),
                edit.end(),
                5,
                4,
                "lsar",
                3,
                edit.start(),
                edit.end() - edit.start(),
                Double.NaN,
                HEX,
                HEX,
                words.bytes(original[0], (int) edit.start(), edit.removed().length)));
      }
      writer.totals(
          new LedgerTotals(
              edits.length, Map.of("clicks", (long) edits.length), 0, 0, facts, null, List.of()));
      writer.seal();
    }
    return Ledger.open(file);
  }

  private static LedgerParent parent(long edits, long undone) {
    return new LedgerParent("parent.ledger.jsonl", HEX, null, null, edits, undone, undone);
  }

  private List<Share> run(Ledger ledger, long undone, Repair... found) throws IOException {
    return run(ledger, null, undone, found);
  }

  private List<Share> run(Ledger ledger, Ledger first, long undone, Repair... found)
      throws IOException {
    List<Share> shares = new ArrayList<>();
    try (RepairLog kept = new RepairLog(folder);
        ReplayProof proof =
            new ReplayProof(
                ledger,
                edit -> edit.number() == undone,
                new MemorySide(FORMAT, original),
                new MemorySide(FORMAT, restored),
                kept,
                first)) {
      for (Repair repair : found) {
        shares.add(proof.share(StageId.CLICKS, repair));
      }
      proof.finish();
      listed = proof.finding();
    }
    return shares;
  }

  private Map<String, Object> listed;

  @Test
  void editsAreFoundAgainAndOneIsLeftOut() throws IOException {
    Ledger ledger = ledger(null, List.of(), repair(10, 4), repair(30, 2));
    assertThat(run(ledger, 2, repair(10, 4), repair(30, 2)))
        .containsExactly(Share.WHOLE, Share.NONE);
    assertThat(listed).isNull();
  }

  @Test
  void aRepairThatChangedNoWordIsMadeAgainAndListed() throws IOException {
    Ledger ledger = ledger(null, List.of(), repair(10, 4), repair(30, 2));
    assertThat(run(ledger, 1, repair(10, 4), repair(20, 3), repair(30, 2)))
        .containsExactly(Share.NONE, Share.WHERE_NONE_IS_LEFT_OUT, Share.WHOLE);
    assertThat(listed).containsEntry("places", 1);
  }

  @Test
  void aStrangeMissingOrMovedRepairIsNoRepetition() throws IOException {
    Ledger ledger = ledger(null, List.of(), repair(10, 4), repair(30, 2));
    restored[0][50] = 9;
    requireRefused(ledger, "no other", repair(10, 4), repair(30, 2), repair(50, 1));
    requireRefused(ledger, "edit 2", repair(10, 4));
    requireRefused(ledger, "edit 1", repair(30, 2));
    requireRefused(ledger, "edits of clicks");
    requireRefused(ledger, "edit 1", repair(11, 4), repair(30, 2));
    Repair other =
        new Repair(0, 10, new double[4], new Repair.Evidence(5, 4, "lsar", 3, 10, 3, Double.NaN));
    requireRefused(ledger, "edit 1", other, repair(30, 2));
  }

  private void requireRefused(Ledger ledger, String words, Repair... found) {
    assertThatThrownBy(() -> run(ledger, 1, found))
        .isInstanceOf(NotRepeatedException.class)
        .extracting(e -> ((NotRepeatedException) e).told(ledger, "test").getMessage())
        .asString()
        .contains(words);
  }

  @Test
  void whatWasTakenBackBeforeIsLeftOutAgainAndCounted() throws IOException {
    Map<String, Object> known = Map.of("stage", "clicks", "channel", 0, "start", 20L, "end", 23L);
    Ledger child = ledger(parent(3, 1), List.of(known), repair(10, 4), repair(30, 2));
    assertThat(run(child, 2, repair(10, 4), repair(20, 3), repair(25, 2), repair(30, 2)))
        .containsExactly(Share.WHOLE, Share.WHERE_NONE_IS_LEFT_OUT, Share.NONE, Share.NONE);
    // one more, or none, of what was taken back before
    requireRefused(
        child,
        "does not hold",
        repair(10, 4),
        repair(20, 3),
        repair(25, 2),
        repair(28, 1),
        repair(30, 2));
    requireRefused(child, "does not hold", repair(10, 4), repair(20, 3), repair(30, 2));
  }

  /** Where words were put back, the child has no list of repairs without effect. */
  @Test
  void theFirstTreatmentTellsWhatWasTakenBackFromWhatHadNoEffect() throws IOException {
    Ledger first =
        ledger("first.ledger.jsonl", null, List.of(), repair(10, 4), repair(25, 2), repair(30, 2));
    for (int i = 25; i < 27; i++) {
      restored[0][i] = original[0][i];
    }
    Ledger child = ledger(parent(3, 1), List.of(), repair(10, 4), repair(30, 2));
    Repair[] found = {repair(10, 4), repair(20, 3), repair(25, 2), repair(30, 2)};
    assertThat(run(child, first, 2, found))
        .containsExactly(Share.WHOLE, Share.WHERE_NONE_IS_LEFT_OUT, Share.NONE, Share.NONE);
    assertThat(listed).containsEntry("places", 1);
    // without it nobody can tell them apart, and that is what is said
    requireRefused(child, "say where parent.ledger.jsonl is with --parent", found);
    // what is in neither ledger and changed words is strange all the same
    restored[0][20] = 9;
    assertThatThrownBy(() -> run(child, first, 2, found)).isInstanceOf(NotRepeatedException.class);
  }
}
