package org.groovemend.chain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.Words;
import org.groovemend.chain.RepairSelection.Share;
import org.groovemend.stage.Crew;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;
import org.junit.jupiter.api.Test;

/** A run with repairs left out against the slow obvious sum, sample by sample. */
class KeptRepairsTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(48_000, 2, 24);
  private static final int SIDES = 300;

  /**
   * Finds places by their number alone and takes away what depends on what it hears there, so that
   * a stage behind another takes away something else when the other has not repaired.
   */
  private record Biter(StageId stage, int segmentFrames, long seed) implements RepairStage {

    @Override
    public StageParameters parameters() {
      return new ToyStages.Toy(stage, 1);
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return new Segmentation(segmentFrames, 5, segmentFrames);
    }

    @Override
    public boolean neutral() {
      return false;
    }

    @Override
    public Worker open(AudioFormat format) {
      return window -> {
        List<Repair> found = new ArrayList<>();
        for (int i = window.startIndex(); i < window.endIndex(); i++) {
          for (int c = 0; c < window.channels(); c++) {
            long frame = window.firstFrame() + i;
            SplittableRandom at =
                new SplittableRandom(seed ^ (2 * frame + c) * 0x9E3779B97F4A7C15L);
            if (at.nextInt(40) > 0) {
              continue;
            }
            int length =
                (int) Math.min(1 + at.nextInt(segmentFrames / 2), window.sideFrames() - frame);
            double[] removed = new double[length];
            for (int k = 0; k < length; k++) {
              removed[k] = 0.3 * window.samples()[c][i + k] + 0.001;
            }
            found.add(
                new Repair(
                    c,
                    frame,
                    removed,
                    new Repair.Evidence(1, 0.5, "toy", 0, frame, 1, Double.NaN)));
          }
        }
        return found;
      };
    }
  }

  private static MemorySide side(SplittableRandom random) {
    int frames = 1 + random.nextInt(600);
    long[][] words = new long[2][frames];
    for (long[] channel : words) {
      for (int i = 0; i < frames; i++) {
        channel[i] = random.nextInt(-(1 << 22), 1 << 22);
      }
    }
    return new MemorySide(FORMAT, words);
  }

  private static List<Stage> stages(SplittableRandom random, boolean smooth) {
    List<Stage> stages = new ArrayList<>();
    stages.add(new Biter(StageId.CLICKS, 10 + random.nextInt(90), random.nextLong()));
    if (random.nextBoolean()) {
      stages.add(new Biter(StageId.CRACKLE, 10 + random.nextInt(90), random.nextLong()));
    }
    stages.add(new Biter(StageId.THUMPS, 10 + random.nextInt(90), random.nextLong()));
    if (smooth) {
      stages.add(new ToyStages.Smoother(10 + random.nextInt(90)));
    }
    return stages;
  }

  private static String key(StageId stage, Repair repair) {
    return stage + " " + repair.channel() + " " + repair.start() + " " + repair.end();
  }

  private static long[][] run(
      MemorySide side, List<Stage> stages, Crew crew, RepairSink sink, RepairSelection selection)
      throws IOException {
    long[][] out = new long[2][(int) side.frames()];
    int[] at = {0};
    new SideChain(stages)
        .run(
            side,
            crew,
            5,
            sink,
            selection,
            Map.of(),
            (words, offset, count) -> {
              for (int c = 0; c < 2; c++) {
                System.arraycopy(words[c], offset, out[c], at[0], count);
              }
              at[0] += count;
            },
            Progress.SILENT);
    return out;
  }

  /** What should come out, from the repairs of the run in which all are made. */
  private static long[][] expected(
      MemorySide side,
      Map<StageId, List<Repair>> found,
      Map<String, Share> shares,
      boolean smooth) {
    int frames = (int) side.frames();
    long[][] out = new long[2][frames];
    Quantiser quantiser = new Quantiser(FORMAT, 5);
    for (int c = 0; c < 2; c++) {
      double[] x = new double[frames];
      Words.toDoubles(side.words()[c], 0, x, 0, frames, FORMAT);
      boolean[] leftOut = new boolean[frames];
      for (Map.Entry<StageId, List<Repair>> stage : found.entrySet()) {
        for (Repair repair : stage.getValue()) {
          if (repair.channel() == c && shares.get(key(stage.getKey(), repair)) == Share.NONE) {
            java.util.Arrays.fill(leftOut, (int) repair.start(), (int) repair.end(), true);
          }
        }
      }
      for (Map.Entry<StageId, List<Repair>> stage : found.entrySet()) {
        for (Repair repair : stage.getValue()) {
          Share share = shares.get(key(stage.getKey(), repair));
          if (repair.channel() != c || share == Share.NONE) {
            continue;
          }
          for (int k = 0; k < repair.removed().length; k++) {
            int frame = (int) repair.start() + k;
            if (share == Share.WHOLE || !leftOut[frame]) {
              x[frame] -= repair.removed()[k];
            }
          }
        }
      }
      double[] y = x;
      if (smooth) {
        y = new double[frames];
        for (int i = 0; i < frames; i++) {
          y[i] = ((i == 0 ? 0 : x[i - 1]) + x[i] + (i == frames - 1 ? 0 : x[i + 1])) / 3;
        }
      }
      quantiser.quantise(c, 0, y, frames, out[c]);
    }
    return out;
  }

  @Test
  void whatIsKeptIsSubtractedFromTheOriginalAndNothingElse() throws IOException {
    ExecutorService pool = Executors.newFixedThreadPool(3);
    try {
      int mixed = 0;
      for (long seed = 1; seed <= SIDES; seed++) {
        SplittableRandom random = new SplittableRandom(seed);
        MemorySide side = side(random);
        boolean smooth = random.nextBoolean();
        List<Stage> stages = stages(random, smooth);
        Map<StageId, List<Repair>> found = new LinkedHashMap<>();
        stages.forEach(stage -> found.put(stage.parameters().stage(), new ArrayList<>()));
        long[][] all =
            run(side, stages, Crew.alone(), (stage, repair) -> found.get(stage).add(repair), null);
        Map<String, Share> shares = new LinkedHashMap<>();
        found.forEach(
            (stage, repairs) ->
                repairs.forEach(
                    repair -> shares.put(key(stage, repair), Share.values()[random.nextInt(3)])));
        mixed += new java.util.HashSet<>(shares.values()).size() == 3 ? 1 : 0;
        Map<StageId, List<Repair>> again = new LinkedHashMap<>();
        stages.forEach(stage -> again.put(stage.parameters().stage(), new ArrayList<>()));
        long[][] some =
            run(
                side,
                stages,
                new Crew(pool, 1 + random.nextInt(4)),
                (stage, repair) -> again.get(stage).add(repair),
                (stage, repair) -> shares.get(key(stage, repair)));
        assertThat(some).as("seed %d", seed).isDeepEqualTo(expected(side, found, shares, smooth));
        // every stage finds the same as ever
        found.forEach(
            (stage, repairs) -> {
              assertThat(again.get(stage)).hasSameSizeAs(repairs);
              for (int i = 0; i < repairs.size(); i++) {
                assertThat(again.get(stage).get(i).removed()).isEqualTo(repairs.get(i).removed());
              }
            });
        assertThat(run(side, stages, Crew.alone(), (s, r) -> {}, (s, r) -> Share.WHOLE))
            .as("all kept, seed %d", seed)
            .isDeepEqualTo(all);
        if (!smooth) {
          assertThat(run(side, stages, Crew.alone(), (s, r) -> {}, (s, r) -> Share.NONE))
              .as("none kept, seed %d", seed)
              .isDeepEqualTo(side.words());
        }
      }
      assertThat(mixed).isGreaterThan(SIDES / 2);
    } finally {
      pool.shutdown();
    }
  }

  @Test
  void repairsBehindAStageThatMayTouchAnySampleCannotBeLeftOut() {
    MemorySide side = side(new SplittableRandom(1));
    List<Stage> stages = List.of(new ToyStages.Smoother(100), new Biter(StageId.CLICKS, 100, 1));
    assertThatThrownBy(() -> run(side, stages, Crew.alone(), (s, r) -> {}, (s, r) -> Share.WHOLE))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("cannot be left out");
  }
}
