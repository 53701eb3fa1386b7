package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.groovemend.signal.linear.BandedCholesky;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;

/**
 * Least-squares interpolation under a known model: check values section 3 and
 * fixtures/reference/ar/lsar_gap_error.csv.
 */
class ClickInterpolatorTest {
  /** Fills x[start, start + m) under the filter a, the way detector and interpolator do. */
  private static BandedCholesky fill(double[] a, double[] x, int start, int m) {
    int order = a.length - 1;
    double[] b = new double[order + 1];
    PredictionFilter.coefficientCorrelation(a, order, b);
    BandedCholesky cholesky = new BandedCholesky();
    int width = Math.min(order, m - 1);
    cholesky.reset(m, width);
    double[] d = new double[m];
    for (int j = 0; j < m; j++) {
      for (int k = 0; k <= width && j + k < m; k++) {
        cholesky.set(j + k, j, b[k]);
      }
      d[j] = b[0] * x[start + j];
      for (int l = 1; l <= order; l++) {
        d[j] += b[l] * (x[start + j - l] + x[start + j + l]);
      }
    }
    assertThat(cholesky.factor()).isTrue();
    cholesky.solve(d);
    for (int j = 0; j < m; j++) {
      x[start + j] -= d[j];
    }
    return cholesky;
  }

  @Test
  void noiselessGapsComeBackExactly() {
    double w1 = 0.3;
    double w2 = 0.8;
    double[] a =
        convolve(new double[] {1, -2 * Math.cos(w1), 1}, new double[] {1, -2 * Math.cos(w2), 1});
    for (int m : new int[] {1, 10, 50}) {
      double[] x = new double[400];
      for (int n = 0; n < x.length; n++) {
        x[n] = 0.5 * Math.cos(w1 * n + 0.2) + 0.3 * Math.cos(w2 * n + 1);
      }
      double[] gap = x.clone();
      java.util.Arrays.fill(gap, 150, 150 + m, 0);
      fill(a, gap, 150, m);
      assertThat(gap).containsExactly(x, within(1e-9));
    }
  }

  @Test
  void errorsHaveTheTablesVariance() throws Exception {
    double[][] models = {{1, -0.9}, {1, -0.75, 0.5}, {1, -2.7607, 3.8106, -2.6535, 0.9238}};
    Random random = new Random(11);
    int checked = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/ar/lsar_gap_error.csv")) {
      int m = Integer.parseInt(row.get(1));
      if (m > 10) {
        continue;
      }
      double[] a =
          row.get(0).startsWith("AR(1)")
              ? models[0]
              : row.get(0).startsWith("AR(2)") ? models[1] : models[2];
      double expected = Double.parseDouble(row.get(5));
      double[] x = new double[60_000];
      for (int n = 4; n < x.length; n++) {
        x[n] = random.nextGaussian();
        for (int k = 1; k < a.length; k++) {
          x[n] -= a[k] * x[n - k];
        }
      }
      double sum = 0;
      int gaps = 0;
      double trace = 0;
      for (int start = 1000; start + 60 < x.length; start += 30) {
        double[] around = java.util.Arrays.copyOfRange(x, start - 10, start + m + 10);
        trace = fill(a, around, 10, m).inverseTrace() / m;
        for (int i = 0; i < m; i++) {
          sum += Math.pow(around[10 + i] - x[start + i], 2) / m;
        }
        gaps++;
      }
      assertThat(trace).as(row.toString()).isCloseTo(expected, within(1e-6 * expected));
      // errors within a gap are dependent: at worst one independent square a gap
      assertThat(sum / gaps)
          .as(row.toString())
          .isCloseTo(expected, within(4 * expected * Math.sqrt(2.0 / gaps)));
      checked++;
    }
    assertThat(checked).isGreaterThanOrEqualTo(15);
  }

  @Test
  void fittedModelFillsTonalMusicCloselyAndStatesItsError() {
    ClickGeometry g = ClickGeometry.of(ClickParameters.defaults(), 44_100);
    ClickInterpolator interpolator = new ClickInterpolator(g, 3);
    Random random = new Random(12);
    double[] x = new double[12_000];
    for (int n = 0; n < x.length; n++) {
      x[n] = 0.3 * Math.sin(0.05 * n) + 0.1 * Math.sin(0.31 * n + 1) + 1e-3 * random.nextGaussian();
    }
    double[] damaged = x.clone();
    boolean[] gaps = new boolean[x.length];
    for (int i = 0; i < 22; i++) {
      damaged[6000 + i] += 0.5;
      gaps[6000 + i] = true;
    }
    double[] out = new double[interpolator.longestGap()];
    int filled = interpolator.fill(damaged, gaps, 6000, 6022, x.length, 0, x.length, out);
    assertThat(filled).isBetween(22, 60);
    double error = 0;
    for (int i = 0; i < filled; i++) {
      error += Math.pow(out[i] - x[6000 + i], 2) / filled;
    }
    // white noise of 1e-3 cannot be predicted: the error is about that, and so is the statement
    assertThat(Math.sqrt(error)).isBetween(0.5e-3, 2e-3);
    assertThat(Math.sqrt(interpolator.meanSquareError())).isBetween(0.5e-3, 2e-3);
  }

  private static double[] convolve(double[] p, double[] q) {
    double[] out = new double[p.length + q.length - 1];
    for (int i = 0; i < p.length; i++) {
      for (int j = 0; j < q.length; j++) {
        out[i + j] += p[i] * q[j];
      }
    }
    return out;
  }
}
