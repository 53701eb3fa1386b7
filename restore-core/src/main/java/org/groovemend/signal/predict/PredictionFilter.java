package org.groovemend.signal.predict;

import java.util.Arrays;

/** The filters that follow from a prediction-error filter {@code a[0..p]}. */
public final class PredictionFilter {
  /** Samples worked on at a time: input and output stay in the nearest cache. */
  private static final int TILE = 512;

  /** Shorter stretches are not worth copying. */
  private static final int WORTH_COPYING = 96;

  /**
   * A thread's tiles. Sums of four products at four distances are made into vector code reliably
   * only if all operands have one index, so the four are copied side by side first: 1.7 times as
   * fast on the machine of docs/explanation/performance.md.
   */
  private static final ThreadLocal<double[][]> TILES =
      ThreadLocal.withInitial(() -> new double[5][TILE]);

  private PredictionFilter() {}

  /**
   * Forward residual {@code e[n] = sum a[k] x[n-k]} for n in [from, to).
   *
   * @param from at least {@code order}
   */
  public static void residual(double[] a, int order, double[] x, int from, int to, double[] e) {
    for (int n = from; n < to; n += TILE) {
      tile(a, order, x, -1, n, Math.min(to, n + TILE), e);
    }
  }

  /**
   * Correlation of the residual with the filter, {@code y[n] = sum a[k] e[n+k]} for n in [from,
   * to): the matched filter for a click of one sample, and {@code b[0]} times the two-sided
   * prediction error.
   *
   * @param to at most {@code e.length - order}
   */
  public static void matched(double[] a, int order, double[] e, int from, int to, double[] y) {
    for (int n = from; n < to; n += TILE) {
      tile(a, order, e, 1, n, Math.min(to, n + TILE), y);
    }
  }

  /** {@code out[n] = sum a[k] x[n + way k]} for n in [from, to), at most a tile. */
  private static void tile(
      double[] a, int order, double[] x, int way, int from, int to, double[] out) {
    int count = to - from;
    int k = 1;
    if (count < WORTH_COPYING) {
      System.arraycopy(x, from, out, from, count);
      for (; k + 3 <= order; k += 4) {
        add4(a, k, x, way, from, to, out);
      }
    } else {
      double[][] tiles = TILES.get();
      double[] sum = tiles[4];
      System.arraycopy(x, from, sum, 0, count);
      for (; k + 3 <= order; k += 4) {
        for (int j = 0; j < 4; j++) {
          System.arraycopy(x, from + way * (k + j), tiles[j], 0, count);
        }
        addSideBySide(a, k, tiles[0], tiles[1], tiles[2], tiles[3], count, sum);
      }
      System.arraycopy(sum, 0, out, from, count);
    }
    for (; k <= order; k++) {
      double c = a[k];
      int shift = way * k;
      for (int n = from; n < to; n++) {
        out[n] += c * x[n + shift];
      }
    }
  }

  private static void addSideBySide(
      double[] a,
      int k,
      double[] x0,
      double[] x1,
      double[] x2,
      double[] x3,
      int count,
      double[] sum) {
    double c0 = a[k];
    double c1 = a[k + 1];
    double c2 = a[k + 2];
    double c3 = a[k + 3];
    for (int i = 0; i < count; i++) {
      sum[i] += c0 * x0[i] + c1 * x1[i] + (c2 * x2[i] + c3 * x3[i]);
    }
  }

  /** {@code b[l] = sum a[k] a[k+l]} for l = 0 to order. */
  public static void coefficientCorrelation(double[] a, int order, double[] b) {
    Arrays.fill(b, 0, order + 1, 0);
    for (int k = 0; k <= order; k++) {
      double v = a[k];
      for (int l = 0; l <= order - k; l++) {
        b[l] += v * a[k + l];
      }
    }
  }

  private static void add4(double[] a, int k, double[] x, int way, int from, int to, double[] out) {
    double c0 = a[k];
    double c1 = a[k + 1];
    double c2 = a[k + 2];
    double c3 = a[k + 3];
    int s0 = way * k;
    int s1 = s0 + way;
    int s2 = s1 + way;
    int s3 = s2 + way;
    for (int n = from; n < to; n++) {
      out[n] += c0 * x[n + s0] + c1 * x[n + s1] + (c2 * x[n + s2] + c3 * x[n + s3]);
    }
  }
}
