package org.groovemend.chain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Repair;
import org.groovemend.stage.Stage;
import org.junit.jupiter.api.Test;

class SideChainTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(48_000, 2, 24);

  private static MemorySide randomSide(int frames, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    long[][] words = new long[2][frames];
    for (long[] channel : words) {
      for (int i = 0; i < frames; i++) {
        channel[i] = random.nextInt(-(1 << 23), 1 << 23);
      }
    }
    return new MemorySide(FORMAT, words);
  }

  private record Outcome(long[][] words, List<Repair> repairs, long clipped) {}

  private static Outcome run(MemorySide side, List<Stage> stages, Crew crew, long seed)
      throws IOException {
    long[][] out = new long[2][(int) side.frames()];
    int[] at = {0};
    List<Repair> repairs = new ArrayList<>();
    long clipped =
        new SideChain(stages)
            .run(
                side,
                crew,
                seed,
                (stage, repair) -> repairs.add(repair),
                (words, offset, count) -> {
                  for (int c = 0; c < 2; c++) {
                    System.arraycopy(words[c], offset, out[c], at[0], count);
                  }
                  at[0] += count;
                },
                Progress.SILENT);
    assertThat(at[0]).isEqualTo((int) side.frames());
    return new Outcome(out, repairs, clipped);
  }

  @Test
  void noStageReturnsEveryWord() throws IOException {
    MemorySide side = randomSide(200_001, 1);
    assertThat(run(side, List.of(), Crew.alone(), 1).words()).isDeepEqualTo(side.words());
  }

  @Test
  void repairsAreTakenAwayExactlyAndNothingElseChanges() throws IOException {
    MemorySide side = randomSide(100_000, 2);
    Outcome outcome = run(side, List.of(new ToyStages.Clipper(777, 9)), Crew.alone(), 1);
    long[][] expected = {side.words()[0].clone(), side.words()[1].clone()};
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < 100_000; i++) {
        if (side.words()[c][i] > 1 << 22) {
          for (int k = i; k < Math.min(100_000, i + 9); k++) {
            expected[c][k] -= 1 << 21;
          }
        }
      }
      for (int i = 0; i < 100_000; i++) {
        expected[c][i] = Math.max(expected[c][i], -(1 << 23));
      }
    }
    assertThat(outcome.words()).isDeepEqualTo(expected);
    assertThat(outcome.repairs()).isNotEmpty();
    assertThat(outcome.clipped()).isPositive();
  }

  @Test
  void bytesDoNotDependOnHandsOrOnSegments() throws IOException {
    MemorySide side = randomSide(300_000, 3);
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      Outcome one =
          run(
              side,
              List.of(new ToyStages.Clipper(5_000, 9), new ToyStages.Smoother(4_096)),
              Crew.alone(),
              7);
      for (int hands : new int[] {1, 2, 8}) {
        Outcome many =
            run(
                side,
                List.of(new ToyStages.Clipper(313, 9), new ToyStages.Smoother(70_000)),
                new Crew(pool, hands),
                7);
        assertThat(many.words()).isDeepEqualTo(one.words());
      }
    } finally {
      pool.shutdown();
    }
  }

  @Test
  void anotherSeedDithersOtherwise() throws IOException {
    MemorySide side = randomSide(5_000, 4);
    List<Stage> stages = List.of(new ToyStages.Smoother(1_000));
    assertThat(run(side, stages, Crew.alone(), 1).words())
        .isNotEqualTo(run(side, stages, Crew.alone(), 2).words());
  }

  @Test
  void rangesAreWhatTheWholeRunGives() throws IOException {
    MemorySide side = randomSide(20_000, 5);
    // multiples of 1/4 stay on the 24-bit grid, so the quantiser leaves the whole run as it is
    List<Stage> stages = List.of(new ToyStages.Clipper(777, 9));
    long[][] whole = run(side, stages, Crew.alone(), 1).words();
    RangeReader ranges = new SideChain(stages).reader(side);
    double[][] part = new double[2][5_000];
    for (int from : new int[] {0, 1, 776, 777, 778, 9_999, 15_000}) {
      ranges.read(from, 5_000, part);
      for (int i = 0; i < 5_000; i++) {
        double expected = whole[0][from + i] / (double) (1 << 23);
        assertThat(Math.max(-1, part[0][i])).isEqualTo(expected);
      }
    }
  }

  @Test
  void aStageThatFailsStopsTheRunWithItsOwnError() {
    MemorySide side = randomSide(5_000, 6);
    Stage broken = new ToyStages.Clipper(100, 0);
    assertThatThrownBy(() -> run(side, List.of(broken, outOfPlace()), Crew.alone(), 1))
        .isInstanceOf(RuntimeException.class);
  }

  private static Stage outOfPlace() {
    return new ToyStages.Clipper(100, -1);
  }
}
