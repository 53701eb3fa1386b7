package org.groovemend.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Wow of simulated discs: target of the project, residual below 0.05 % peak to peak. */
@Tag("long")
class WowEstimatorTest {
  private static final int RATE = 12_000;

  /** The disc's own wow, and the music's time under the needle by its integral. */
  static InventedMusic.Needle needle(Wow wow, double seconds) {
    int fine = 2000;
    double[] sum = new double[(int) (seconds * fine) + 2];
    for (int i = 0; i < sum.length - 1; i++) {
      sum[i + 1] = sum[i] + (1 + (wow == null ? 0 : wow.deviation((i + 0.5) / fine))) / fine;
    }
    return t -> {
      int i = Math.min(sum.length - 2, (int) (t * fine));
      return sum[i] + (t * fine - i) * (sum[i + 1] - sum[i]);
    };
  }

  /** Peak to peak of what is left of the speed once a turn's worth is taken out. */
  static double residual(Wow truth, Wow found, double seconds) {
    double least = 1;
    double most = -1;
    for (double t = 0; t < seconds; t += 0.01) {
      double left = (1 + truth.deviation(t)) / (1 + (found == null ? 0 : found.deviation(t))) - 1;
      least = Math.min(least, left);
      most = Math.max(most, left);
    }
    return most - least;
  }

  @ParameterizedTest
  @CsvSource({
    // rpm, seconds, outer and inner radius, mm off, seed
    "78.26, 60, 120.65, 47.625, 0.2, 1",
    "78.0, 60, 120.65, 47.625, 0.1, 2",
    "78.6, 60, 110, 60, 0.35, 3",
    "33.3333, 90, 146, 60.3, 0.25, 4",
    "33.4, 90, 146, 100, 0.4, 5",
    "45, 60, 84, 54, 0.2, 6",
  })
  void residualIsBelowTheTarget(
      double rpm, double seconds, double outer, double inner, double mm, long seed)
      throws IOException {
    Wow truth =
        new Wow(
            60 / rpm,
            outer,
            (outer - inner) / seconds,
            List.of(new Wow.Part(1, mm * Math.cos(seed), mm * Math.sin(seed))));
    InventedMusic music = new InventedMusic(seed, seconds, 440, 4, 0.25, 1.2);
    PartialTracks tracks =
        PitchAnalyser.tracks(music.heard(RATE, seconds, 0.003, needle(truth, seconds)));
    WowFinding found = WowEstimator.estimate(tracks, seconds, Double.NaN, null);
    assertThat(found.found()).as(found.reason()).isTrue();
    assertThat(found.wow().turnSeconds()).isCloseTo(60 / rpm, within(found.turnSecondsHalf()));
    assertThat(residual(truth, found.wow(), seconds)).isLessThan(0.0005);
  }

  /**
   * Every note slides a little, every voice but the bass has vibrato, notes are short, noise is
   * near. How far the target is met then stands in docs/explanation/speed.md; here, that most of
   * the wow goes and that the interval told is one.
   */
  @ParameterizedTest
  @CsvSource({
    "78.26, 120, 0.2, 1",
    "78.26, 120, 0.1, 2",
    "33.3333, 180, 0.25, 4",
    "33.3333, 180, 0.4, 5",
  })
  void mostOfItGoesWhereThePlayersAreUnsteady(double rpm, double seconds, double mm, long seed)
      throws IOException {
    boolean coarse = rpm > 60;
    double outer = coarse ? 115 : 140;
    double inner = coarse ? 60 : 75;
    Wow truth =
        new Wow(
            60 / rpm,
            outer,
            (outer - inner) / seconds,
            List.of(new Wow.Part(1, mm * Math.cos(seed), mm * Math.sin(seed))));
    InventedMusic music = new InventedMusic(seed, seconds, 440, 8, 0.15, 0.8, 4, true);
    PartialTracks tracks =
        PitchAnalyser.tracks(music.heard(RATE, seconds, 0.01, needle(truth, seconds)));
    WowFinding found = WowEstimator.estimate(tracks, seconds, Double.NaN, null);
    assertThat(found.found()).as(found.reason()).isTrue();
    assertThat(residual(truth, found.wow(), seconds))
        .isLessThan(residual(truth, null, seconds) / 3);
    assertThat(found.peak()).isCloseTo(truth.peak(seconds / 2), within(found.peakHalf()));
  }

  /** A sway of the tempo of vibrato, of all voices, near no speed of a disc, is not touched. */
  @Test
  void aSwayOfAnotherPeriodIsNotTakenForWow() throws IOException {
    Wow truth = new Wow(60 / 70.0, 100, 0, List.of(new Wow.Part(1, 0.3, 0)));
    InventedMusic music = new InventedMusic(21, 60, 440, 4, 0.25, 1.2);
    PartialTracks tracks = PitchAnalyser.tracks(music.heard(RATE, 60, 0.003, needle(truth, 60)));
    assertThat(WowEstimator.estimate(tracks, 60, Double.NaN, null).found()).isFalse();
    assertThat(WowEstimator.estimate(tracks, 60, 70, null).found()).isTrue();
  }

  @Test
  void musicWithoutWowIsLeftAlone() throws IOException {
    int seen = 0;
    for (int seed = 0; seed < 10; seed++) {
      InventedMusic music = new InventedMusic(100 + seed, 40, 440, 4, 0.25, 1.2);
      PartialTracks tracks = PitchAnalyser.tracks(music.heard(RATE, 40, 0.003, t -> t));
      WowFinding found = WowEstimator.estimate(tracks, 40, Double.NaN, null);
      seen += found.found() ? 1 : 0;
      assertThat(found.chance()).isGreaterThan(1e-3);
    }
    assertThat(seen).isZero();
  }
}
