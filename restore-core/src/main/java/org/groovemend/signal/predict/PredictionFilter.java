package org.groovemend.signal.predict;

import java.util.Arrays;

/** The filters that follow from a prediction-error filter {@code a[0..p]}. */
public final class PredictionFilter {
  /** Samples worked on at a time: input and output stay in the nearest cache. */
  private static final int TILE = 1024;

  private PredictionFilter() {}

  /**
   * Forward residual {@code e[n] = sum a[k] x[n-k]} for n in [from, to).
   *
   * @param from at least {@code order}
   */
  public static void residual(double[] a, int order, double[] x, int from, int to, double[] e) {
    for (int n = from; n < to; n += TILE) {
      residualTile(a, order, x, n, Math.min(to, n + TILE), e);
    }
  }

  private static void residualTile(
      double[] a, int order, double[] x, int from, int to, double[] e) {
    System.arraycopy(x, from, e, from, to - from);
    int k = 1;
    for (; k + 3 <= order; k += 4) {
      add4(a[k], a[k + 1], a[k + 2], a[k + 3], x, -k, -1, from, to, e);
    }
    for (; k <= order; k++) {
      add(a[k], x, -k, from, to, e);
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
      matchedTile(a, order, e, n, Math.min(to, n + TILE), y);
    }
  }

  private static void matchedTile(double[] a, int order, double[] e, int from, int to, double[] y) {
    System.arraycopy(e, from, y, from, to - from);
    int k = 1;
    for (; k + 3 <= order; k += 4) {
      add4(a[k], a[k + 1], a[k + 2], a[k + 3], e, k, 1, from, to, y);
    }
    for (; k <= order; k++) {
      add(a[k], e, k, from, to, y);
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

  private static void add4(
      double c0,
      double c1,
      double c2,
      double c3,
      double[] x,
      int shift,
      int step,
      int from,
      int to,
      double[] out) {
    int s0 = shift;
    int s1 = shift + step;
    int s2 = shift + 2 * step;
    int s3 = shift + 3 * step;
    for (int n = from; n < to; n++) {
      out[n] += c0 * x[n + s0] + c1 * x[n + s1] + (c2 * x[n + s2] + c3 * x[n + s3]);
    }
  }

  private static void add(double c, double[] x, int shift, int from, int to, double[] out) {
    for (int n = from; n < to; n++) {
      out[n] += c * x[n + shift];
    }
  }
}
