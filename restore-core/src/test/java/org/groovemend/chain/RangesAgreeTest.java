package org.groovemend.chain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.Words;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;
import org.junit.jupiter.api.Test;

/**
 * An analyser must see the side exactly as the whole run leaves it, also around the borders of
 * segments.
 */
class RangesAgreeTest {

  private static final AudioFormat MONO = AudioFormat.ieeeFloat(48_000, 1, 64);
  private static final int SEGMENT = 10;

  /**
   * Two frames taken as unknown at the end of a segment reach over; the next segment fills the part
   * it sees again.
   */
  private record Twice() implements RepairStage {
    @Override
    public StageParameters parameters() {
      return new ToyStages.Toy(StageId.CLICKS, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return new Segmentation(SEGMENT, 2, 2);
    }

    @Override
    public boolean neutral() {
      return false;
    }

    @Override
    public Worker open(AudioFormat format) {
      return Twice::repair;
    }

    private static List<Repair> repair(SegmentWindow w) {
      List<Repair> found = new ArrayList<>();
      if (w.segmentStart() > 0) {
        found.add(take(w.segmentStart(), 1));
      }
      if (w.segmentEnd() < w.sideFrames()) {
        found.add(take(w.segmentEnd() - 1, 2));
      }
      return found;
    }

    private static Repair take(long at, int frames) {
      double[] removed = new double[frames];
      java.util.Arrays.fill(removed, 0.25);
      return new Repair(
          0, at, removed, new Repair.Evidence(1, 0, "toy", 0, at, frames, Double.NaN));
    }
  }

  private static void check(RepairStage stage) throws IOException {
    int frames = 95;
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = i == 17 || i == 44 ? 0.75 : 0.125;
    }
    long[][] words = new long[1][frames];
    for (int i = 0; i < frames; i++) {
      words[0][i] = Words.floatWord(x[i], MONO);
    }
    MemorySide side = new MemorySide(MONO, words);
    SideChain chain = new SideChain(List.of(stage));
    double[] whole = new double[frames];
    int[] at = {0};
    chain.run(
        side,
        Crew.alone(),
        1,
        (id, repair) -> {},
        (block, offset, count) -> {
          for (int i = 0; i < count; i++) {
            whole[at[0]++] = Words.toDouble(block[0][offset + i], MONO);
          }
        },
        Progress.SILENT);
    for (int from = 0; from < frames; from++) {
      for (int count : new int[] {1, 3, frames - from}) {
        int n = Math.min(count, frames - from);
        double[][] part = new double[1][n];
        chain.reader(side).read(from, n, part);
        assertThat(part[0])
            .as("from %d, %d frames", from, n)
            .containsExactly(java.util.Arrays.copyOfRange(whole, from, from + n));
      }
    }
  }

  @Test
  void whatTwoNeighboursBothRepairIsTakenAwayOnce() throws IOException {
    check(new Twice());
  }

  @Test
  void repairsThatReachOverOneBorder() throws IOException {
    check(new ToyStages.Clipper(SEGMENT, SEGMENT / 2));
  }

  /** Leaves the samples as they are, and counts how often each segment is asked for. */
  private record Counting(Map<Long, Integer> times) implements SignalStage {
    @Override
    public StageParameters parameters() {
      return new ToyStages.Toy(StageId.NOISE, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return new Segmentation(SEGMENT, 4, 4);
    }

    @Override
    public boolean neutral() {
      return false;
    }

    @Override
    public Worker open(AudioFormat format) {
      return (window, out) -> {
        times.merge(window.segmentStart(), 1, Integer::sum);
        System.arraycopy(window.samples()[0], window.startIndex(), out[0], 0, out[0].length);
      };
    }
  }

  /** Six stages in a row once took minutes where one takes seconds. */
  @Test
  void aSegmentIsTreatedOnceHoweverManyStagesFollow() throws IOException {
    MemorySide side = new MemorySide(MONO, new long[1][10 * SEGMENT]);
    List<Stage> stages = new ArrayList<>();
    List<Counting> counting = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      counting.add(new Counting(new HashMap<>()));
    }
    stages.addAll(counting);
    RangeReader reader = new SideChain(stages).reader(side);
    for (int from = 0; from < side.frames(); from += 7) {
      int count = (int) Math.min(9, side.frames() - from);
      reader.read(from, count, new double[1][count]);
    }
    for (Counting stage : counting) {
      assertThat(stage.times().values()).hasSize(10).containsOnly(1);
    }
  }

  /** A range reader would not look back far enough for these, so the chain refuses them. */
  @Test
  void repairsLongerThanHalfASegmentStopTheRun() {
    assertThatThrownBy(() -> check(new ToyStages.Clipper(SEGMENT, SEGMENT / 2 + 1)))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("longer than half a segment");
    assertThatThrownBy(() -> check(new ToyStages.Clipper(SEGMENT, 27)))
        .isInstanceOf(IllegalStateException.class);
  }
}
