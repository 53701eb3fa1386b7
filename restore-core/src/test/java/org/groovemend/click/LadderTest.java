package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Fills by the length of the gap and by the other groove wall. */
class LadderTest {
  private static final int RATE = 44_100;
  private static final int N = 30_000;

  private final ClickInterpolator interpolator =
      new ClickInterpolator(ClickGeometry.of(ClickParameters.defaults(), RATE), 3);
  private double[] out = new double[interpolator.longestGap()];

  /** Mean square error of the fill of m samples from 15,000 on. */
  private double error(double[] x, double[] y, int at, int m) {
    double[] damaged = x.clone();
    boolean[] gaps = new boolean[x.length];
    Arrays.fill(damaged, at, at + m, 0);
    Arrays.fill(gaps, at, at + m, true);
    int filled =
        interpolator.fill(
            damaged, gaps, y, new boolean[x.length], at, at + m, at + m, 0, x.length, out);
    assertThat(filled).isEqualTo(m);
    double sum = 0;
    for (int i = 0; i < m; i++) {
      sum += (out[i] - x[at + i]) * (out[i] - x[at + i]) / m;
    }
    return sum;
  }

  private static double[] resonance(int n, Random random) {
    double[] x = new double[n];
    for (int i = 4; i < n; i++) {
      x[i] =
          2.7607 * x[i - 1]
              - 3.8106 * x[i - 2]
              + 2.6535 * x[i - 3]
              - 0.9238 * x[i - 4]
              + 1e-3 * random.nextGaussian();
    }
    return x;
  }

  @Test
  void theOtherWallHelpsWhereItIsAlikeAndDoesNoHarmWhereItIsNot() {
    Random random = new Random(5);
    double[] music = resonance(N, random);
    double[] alike = new double[N];
    double[] x = new double[N];
    double[] strange = resonance(N, random);
    for (int i = 1; i < N; i++) {
      x[i] = music[i] + 1e-4 * random.nextGaussian();
      alike[i] = 0.5 * music[i] + 0.3 * music[i - 1] + 1e-4 * random.nextGaussian();
    }
    for (int m : new int[] {5, 22, 100, 300}) {
      double alone = 0;
      double helped = 0;
      double unhelped = 0;
      for (int at = 10_000; at < 20_000; at += 1000) {
        alone += error(x, null, at, m);
        helped += error(x, alike, at, m);
        assertThat(interpolator.aided()).isTrue();
        unhelped += error(x, strange, at, m);
      }
      assertThat(helped).as("%d samples", m).isLessThan(alone / (m < 10 ? 1 : 4));
      assertThat(unhelped).as("%d samples", m).isLessThan(alone * 1.05);
    }
  }

  @Test
  void aWallThatIsHurtAsWellIsNotAsked() {
    double[] x = resonance(N, new Random(6));
    boolean[] gaps = new boolean[N];
    Arrays.fill(gaps, 15_000, 15_022, true);
    double[] damaged = x.clone();
    Arrays.fill(damaged, 15_000, 15_022, 0);
    boolean[] otherGaps = new boolean[N];
    otherGaps[15_010] = true;
    interpolator.fill(damaged, gaps, x, otherGaps, 15_000, 15_022, 15_022, 0, N, out);
    assertThat(interpolator.aided()).isFalse();
    otherGaps[15_010] = false;
    interpolator.fill(damaged, gaps, x, otherGaps, 15_000, 15_022, 15_022, 0, N, out);
    assertThat(interpolator.aided()).isTrue();
  }

  @Test
  void sinusoidsGoOnThroughEveryLength() {
    double[] x = new double[N];
    for (int i = 0; i < N; i++) {
      x[i] = 0.3 * Math.sin(0.05 * i) + 0.2 * Math.sin(0.31 * i + 1);
    }
    for (int m : new int[] {1, 5, 44, 200, 350}) {
      // 60 dB below the sound, without a step at either join
      assertThat(Math.sqrt(error(x, null, 15_000, m))).as("%d samples", m).isLessThan(2.5e-4);
      assertThat(Math.abs(out[0] - x[15_000])).isLessThan(5e-4);
      assertThat(Math.abs(out[m - 1] - x[15_000 + m - 1])).isLessThan(5e-4);
    }
  }

  @Test
  void theStatedErrorIsTheMeasuredOne() {
    double[] x = resonance(200_000, new Random(8));
    for (int m : new int[] {5, 22, 100}) {
      double actual = 0;
      double stated = 0;
      for (int at = 10_000; at < 190_000; at += 1500) {
        actual += error(x, null, at, m);
        stated += interpolator.meanSquareError();
      }
      // 120 gaps, a few independent errors in each: 15 % of chance; the fitted model adds its own
      assertThat(actual / stated).as("%d samples", m).isBetween(0.6, 1.6);
    }
  }

  @Test
  void nothingStrangeComesOutOfStrangeSound() {
    double[] constant = new double[N];
    Arrays.fill(constant, 0.25);
    double[] square = new double[N];
    for (int i = 0; i < N; i++) {
      square[i] = i / 50 % 2 == 0 ? 0.5 : -0.5;
    }
    double[] step = new double[N];
    Arrays.fill(step, 15_010, N, 0.9);
    double[] brief = resonance(400, new Random(9));
    boolean[] none = new boolean[N];
    for (double[] x : new double[][] {new double[N], constant, square, step, brief}) {
      for (int m : new int[] {1, 22, 100, 300}) {
        int at = x.length / 2;
        int end = Math.min(x.length, at + m);
        boolean[] gaps = new boolean[x.length];
        Arrays.fill(gaps, at, end, true);
        for (double[] y : new double[][] {null, x, constant}) {
          int filled =
              interpolator.fill(x.clone(), gaps, y, none, at, end, x.length, 0, x.length, out);
          for (int i = 0; i < filled; i++) {
            assertThat(out[i]).isBetween(-2.0, 2.0);
          }
          assertThat(interpolator.meanSquareError()).isNotNaN();
        }
      }
    }
  }
}
