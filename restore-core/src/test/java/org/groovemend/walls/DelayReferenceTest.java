package org.groovemend.walls;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.groovemend.simulate.TwoWalls;
import org.groovemend.simulate.TwoWalls.Groove;
import org.groovemend.stage.ArrayRanges;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The delay against the Cramer-Rao bound in closed form, and against delays that were made. */
@Tag("long")
class DelayReferenceTest {
  private static final int RATE = 44_100;

  /**
   * White signal in white noise: the bound is the inverse of 2 T times the integral of (2 pi f)^2 C
   * / (1 - C) over the band (Knapp and Carter 1976, equation of the minimum variance; for a flat
   * coherence the integral is elementary), C = (s / (1 + s))^2 at signal-to-noise power ratio s.
   */
  @ParameterizedTest
  @CsvSource({"20", "6", "0"})
  void noEstimateOfWhiteSignalsIsFarFromTheBound(double snrDb) throws IOException {
    int trials = 40;
    double seconds = 2;
    Random random = new Random(11);
    double error = 0;
    double stated = 0;
    double most = 0;
    for (int t = 0; t < trials; t++) {
      double delay = 3 * (2 * random.nextDouble() - 1);
      double[] sound = new double[(int) (seconds * RATE)];
      for (int i = 0; i < sound.length; i++) {
        sound[i] = random.nextGaussian();
      }
      TwoWalls walls = TwoWalls.of(sound, Groove.equal(-snrDb).withDelay(delay), t);
      DelayFinding found =
          new DelaySearch(ArrayRanges.of(RATE, walls.samples()), WallFrames.of(RATE)).run();
      double off = found.samples() - delay;
      error += off * off / trials;
      stated += found.doubtSamples() * found.doubtSamples() / trials;
      most = Math.max(most, Math.abs(off));
    }
    double s = Math.pow(10, snrDb / 10);
    double c = s * s / ((1 + s) * (1 + s));
    double high = 0.45 * RATE;
    double integral = 4 * Math.PI * Math.PI * (Math.pow(high, 3) - Math.pow(200, 3)) / 3;
    double bound = RATE / Math.sqrt(2 * seconds * integral * c / (1 - c));
    double ratio = Math.sqrt(error) / bound;
    double statedRatio = Math.sqrt(stated) / bound;
    // 40 trials: standard error of the ratio 11 %
    assertThat(ratio).isBetween(0.7, 1.4);
    assertThat(statedRatio).isBetween(0.9, 1.3);
    assertThat(most).isLessThan(0.05);
  }

  @ParameterizedTest
  @CsvSource({"44100", "48000", "96000", "192000"})
  void musicAtTwentyDecibelsTellsADelayToAHundredthOfASample(int rate) throws IOException {
    for (double delay : new double[] {0, 0.31, -0.5, 2.77, -11.4}) {
      TwoWalls walls = TwoWalls.tune(Groove.equal(-20).withDelay(delay), 6, rate, 7);
      DelayFinding found = WallAnalyser.analyse(ArrayRanges.of(rate, walls.samples())).delay();
      assertThat(Math.abs(found.samples() - delay)).isLessThan(0.01);
      assertThat(found.doubtSamples()).isLessThan(0.01);
      assertThat(found.opposed()).isFalse();
    }
  }

  /** Alike noise is lateral and comes with the music's delay or none: the music outweighs it. */
  @Test
  void anOpposedWallIsNoDelay() throws IOException {
    TwoWalls walls = TwoWalls.tune(Groove.equal(-20).withDelay(1.25).reversed(), 6, RATE, 8);
    DelayFinding found = WallAnalyser.analyse(ArrayRanges.of(RATE, walls.samples())).delay();
    assertThat(found.opposed()).isTrue();
    assertThat(Math.abs(found.samples() - 1.25)).isLessThan(0.01);
  }

  @Test
  void aDelayThatDriftsIsFollowed() throws IOException {
    List<double[][]> pieces = new ArrayList<>();
    int n = 12;
    int frames = 0;
    for (int p = 0; p < n; p++) {
      double delay = -0.4 + 0.8 * (p + 0.5) / n;
      pieces.add(TwoWalls.tune(Groove.equal(-20).withDelay(delay), 2, RATE, 20 + p).samples());
      frames += pieces.get(p)[0].length;
    }
    double[][] x = new double[2][frames];
    int at = 0;
    for (double[][] piece : pieces) {
      for (int c = 0; c < 2; c++) {
        System.arraycopy(piece[c], 0, x[c], at, piece[c].length);
      }
      at += piece[0].length;
    }
    DelayFinding found = WallAnalyser.analyse(ArrayRanges.of(RATE, x)).delay();
    assertThat(Math.abs(found.driftSamples() - 0.8)).isLessThan(0.05);
    assertThat(Math.abs(found.at(0.25 * frames, frames) + 0.2)).isLessThan(0.05);
    assertThat(Math.abs(found.at(0.75 * frames, frames) - 0.2)).isLessThan(0.05);
  }

  @Test
  void aConstantDelayHasNoDrift() throws IOException {
    TwoWalls walls = TwoWalls.tune(Groove.equal(-20).withDelay(0.4), 16, RATE, 9);
    DelayFinding found = WallAnalyser.analyse(ArrayRanges.of(RATE, walls.samples())).delay();
    assertThat(found.driftSamples()).isZero();
    assertThat(found.passages()).hasSizeGreaterThan(12);
  }
}
