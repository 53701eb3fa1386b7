package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.chain.MemorySide;
import org.groovemend.chain.Progress;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Dither;
import org.groovemend.ledger.Environment;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.stage.Crew;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BookkeepingTest {

  private static final AudioFormat STEREO = AudioFormat.pcm(44_100, 2, 16);
  private static final int FRAMES = 150_000;
  private static final String HEX = "0".repeat(64);

  @TempDir Path folder;

  private final List<LedgerEdit> edits = new ArrayList<>();
  private final long[][] original = new long[2][FRAMES];
  private final long[][] restored = new long[2][FRAMES];

  private int changes;
  private int unseen;

  private Bookkeeping.Sums keep(boolean wholeSignal, Repair... repairs) throws IOException {
    AppliedStage clicks = new AppliedStage("clicks", AppliedStage.REPAIR);
    AppliedStage noise = new AppliedStage("noise", AppliedStage.SIGNAL);
    try (RepairLog log = new RepairLog(folder);
        LedgerWriter ledger = new LedgerWriter(new ByteArrayOutputStream())) {
      ledger.header(
          new LedgerHeader(
              "groovemend",
              "0",
              "2026-03-01T12:00:00Z",
              Environment.current(),
              new FileFacts("side.wav", 4L * FRAMES, HEX, HEX, FRAMES, STEREO, "WAV"),
              "flat",
              Map.of(),
              wholeSignal ? List.of(clicks, noise) : List.of(clicks),
              wholeSignal,
              Dither.none()));
      ledger.container(new LayoutPiece.PcmFrames(0, FRAMES, false));
      for (Repair repair : repairs) {
        log.add(StageId.CLICKS, repair);
      }
      log.finishWriting();
      Bookkeeping.Onlooker onlooker =
          new Bookkeeping.Onlooker() {
            @Override
            public void block(double[][] before, double[][] after, boolean[][] inEdit, int count) {
              assertThat(after).hasNumberOfRows(2);
              for (int c = 0; c < 2; c++) {
                for (int i = 0; i < count; i++) {
                  changes += before[c][i] != after[c][i] ? 1 : 0;
                  unseen += before[c][i] != after[c][i] && !inEdit[c][i] ? 1 : 0;
                }
              }
            }

            @Override
            public void edit(LedgerEdit edit) {
              edits.add(edit);
            }
          };
      try (RepairLog.Reader reader = log.read()) {
        return new Bookkeeping(
                new MemorySide(STEREO, original),
                new MemorySide(STEREO, restored),
                wholeSignal,
                ledger,
                null,
                onlooker,
                Crew.alone())
            .run(reader, Progress.SILENT);
      }
    }
  }

  private static Repair repair(int channel, long start, int frames) {
    return new Repair(
        channel,
        start,
        new double[frames],
        new Repair.Evidence(9, 5, "lsar", 32, start, frames, -60));
  }

  @Test
  void changesWithinRepairsAreEnteredAlsoAcrossBlocks() throws IOException {
    for (int i = 65_530; i < 65_550; i++) {
      restored[1][i] = 7;
    }
    restored[0][FRAMES - 1] = -3;
    Bookkeeping.Sums sums = keep(false, repair(1, 65_530, 20), repair(0, FRAMES - 1, 1));
    assertThat(sums.edits()).isEqualTo(2);
    assertThat(sums.changedSamples()).isEqualTo(21);
    assertThat(changes).isEqualTo(21);
    assertThat(unseen).isZero();
    assertThat(sums.samplesInEdits()).isEqualTo(21);
    assertThat(sums.outsideEdits().peak()).isZero();
    assertThat(edits).extracting(LedgerEdit::start).containsExactly(65_530L, (long) FRAMES - 1);
    assertThat(edits.get(0).original()).isEqualTo(new byte[40]);
  }

  @Test
  void aRepairThatChangedNoWordIsNotEntered() throws IOException {
    assertThat(keep(false, repair(0, 100, 5)).edits()).isZero();
    assertThat(edits).isEmpty();
  }

  @Test
  void aChangeOneFrameBesideARepairStopsTheJob() {
    restored[1][1000] = 1;
    restored[1][999] = 1;
    assertThatThrownBy(() -> keep(false, repair(1, 1000, 4)))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("frame 999 of channel 1");
  }

  @Test
  void aChangeJustBehindARepairStopsTheJob() {
    restored[1][1004] = 1;
    assertThatThrownBy(() -> keep(false, repair(1, 1000, 4)))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("frame 1004 of channel 1");
  }

  @Test
  void aChangeInTheOtherChannelStopsTheJob() {
    restored[0][1001] = 1;
    assertThatThrownBy(() -> keep(false, repair(1, 1000, 4)))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("frame 1001 of channel 0");
  }

  @Test
  void whereTheWholeSignalMayChangeItIsOnlyCounted() throws IOException {
    restored[0][1001] = 1 << 14;
    Bookkeeping.Sums sums = keep(true);
    assertThat(sums.changedSamples()).isEqualTo(1);
    assertThat(sums.outsideEdits().peak()).isEqualTo(0.5);
    assertThat(sums.outsideEdits().samples()).isEqualTo(2L * FRAMES);
  }
}
