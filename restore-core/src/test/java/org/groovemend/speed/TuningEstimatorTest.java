package org.groovemend.speed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Random;
import org.groovemend.stage.ArrayRanges;
import org.junit.jupiter.api.Test;

/** Speed from the tuning of 200 invented sides, small ones, each with a speed of its own. */
class TuningEstimatorTest {
  private static final int RATE = 12_000;
  private static final int CASES = 200;

  /** Target of the project: within its own 95 % interval in 95 % of 200 cases. */
  @Test
  void theSpeedLiesWithinItsOwnInterval() throws IOException {
    Random random = new Random(31);
    int inside = 0;
    int told = 0;
    double width = 0;
    for (int i = 0; i < CASES; i++) {
      double factor = 1 + 0.025 * (2 * random.nextDouble() - 1);
      double detune = 1 + 7 * random.nextDouble();
      double seconds = 8 + 6 * random.nextDouble();
      double noise = 0.001 + 0.02 * random.nextDouble();
      InventedMusic music =
          new InventedMusic(
              1000 + i, seconds * 1.1, 440, detune, 0.25, 0.9, 3, random.nextBoolean());
      // played too fast by the factor, so that it must run slower by it
      ArrayRanges side = music.heard(RATE, seconds, noise, t -> t * factor);
      TuningFinding found = TuningEstimator.estimate(PitchAnalyser.tracks(side), seconds, 440);
      if (!found.found()) {
        continue;
      }
      told++;
      double off = 1200 * Math.log(found.factor() * factor) / Math.log(2);
      inside += Math.abs(off) <= found.halfCents() ? 1 : 0;
      width += found.halfCents();
    }
    assertThat(told).isGreaterThan(190);
    assertThat(inside / (double) told).isGreaterThanOrEqualTo(0.95);
    // an interval as wide as a semitone would always be right
    assertThat(width / told).isLessThan(8);
  }

  @Test
  void whatHasNoTuningIsSaid() throws IOException {
    Random random = new Random(3);
    ArrayRanges noise = ArrayRanges.of(RATE, 10 * RATE, i -> 0.1 * random.nextGaussian());
    ArrayRanges silence = ArrayRanges.of(RATE, 10 * RATE, i -> 0);
    ArrayRanges tone = ArrayRanges.of(RATE, 10 * RATE, i -> Math.sin(0.2 * i));
    for (ArrayRanges side : new ArrayRanges[] {noise, silence, tone}) {
      TuningFinding found = TuningEstimator.estimate(PitchAnalyser.tracks(side), 10, 440);
      assertThat(found.found()).isFalse();
      assertThat(found.reason()).startsWith("the tuning cannot be told: ");
    }
    InventedMusic music = new InventedMusic(1, 2, 440, 1, 0.2, 0.3);
    ArrayRanges brief = music.heard(RATE, 1.5, 0.001, t -> t);
    assertThat(TuningEstimator.estimate(PitchAnalyser.tracks(brief), 1.5, 440).found()).isFalse();
  }
}
