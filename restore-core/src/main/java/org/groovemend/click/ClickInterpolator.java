package org.groovemend.click;

import org.groovemend.signal.linear.BandedCholesky;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;

/**
 * Fills a gap with the samples of least residual energy under an AR model of its surroundings, fitting and filling in turn
 * (Janssen, Veldhuis and Vries 1986). Gaps nearer than the order are solved together. One instance per thread.
 */
final class ClickInterpolator {
  private static final double FIT_NOISE = 1e-9;

  private final int order;
  private final int context;
  private final int rounds;
  private final int longestWindow;
  private final Autocorrelation autocorrelation;
  private final double[] r;
  private final double[] a;
  private final double[] b;
  private final double[] window;
  private final double[] current;
  private final int[] unknown;
  private final double[] d;
  private final BandedCholesky cholesky = new BandedCholesky();
  private int windowLength = -1;
  private double meanSquareError;

  ClickInterpolator(ClickGeometry g, int rounds) {
    this.order = g.repairOrder();
    this.context = g.repairContext();
    this.rounds = rounds;
    this.longestWindow = 2 * context + 4 * g.longest();
    autocorrelation = new Autocorrelation(longestWindow, order);
    r = new double[order + 1];
    a = new double[order + 1];
    b = new double[order + 1];
    window = new double[longestWindow];
    current = new double[longestWindow + 2 * order];
    unknown = new int[longestWindow];
    d = new double[longestWindow];
  }

  /** Longest gap that {@link #fill} takes. */
  int longestGap() {
    return longestWindow - 2 * context;
  }

  /**
   * Fills [start, end).
   *
   * @param signal with first guesses in all gaps
   * @param gaps true where a sample is unknown
   * @param from first index of the signal that may be read
   * @param to end of it
   * @param out receives {@code end - start} samples
   * @return false if no model could be fitted; {@code out} then holds the first guesses
   */
  boolean fill(double[] signal, boolean[] gaps, int start, int end, int from, int to, double[] out) {
    int lo = Math.max(from, start - context);
    int hi = Math.min(to, end + context);
    int length = hi - lo;
    java.util.Arrays.fill(current, 0);
    System.arraycopy(signal, lo, current, order, length);
    int count = 0;
    for (int n = Math.max(lo, start - order); n < Math.min(hi, end + order); n++) {
      if (gaps[n]) {
        unknown[count++] = n - lo + order;
      }
    }
    hann(length);
    boolean fitted = false;
    for (int round = 0; round < rounds; round++) {
      autocorrelation.compute(current, order, length, window, r);
      if (!(r[0] > 1e-200)) {
        break;
      }
      r[0] *= 1 + FIT_NOISE;
      double error = LevinsonDurbin.solve(r, order, a, null);
      PredictionFilter.coefficientCorrelation(a, order, b);
      if (!solve(count)) {
        break;
      }
      fitted = true;
      double own = 0;
      for (int i = 0; i < count; i++) {
        current[unknown[i]] -= d[i];
      }
      // the window's mean square is 3/8
      own = error / (0.375 * length);
      meanSquareError = own;
    }
    if (fitted) {
      meanSquareError *= cholesky.inverseTrace() / count;
    }
    System.arraycopy(current, start - lo + order, out, 0, end - start);
    return fitted;
  }

  /** Expected mean square error of the last fill: residual variance times the mean diagonal of the inverse matrix. */
  double meanSquareError() {
    return meanSquareError;
  }

  int order() {
    return order;
  }

  private boolean solve(int count) {
    int width = 0;
    for (int i = 0, j = 0; i < count; i++) {
      while (unknown[i] - unknown[j] > order) {
        j++;
      }
      width = Math.max(width, i - j);
    }
    cholesky.reset(count, width);
    for (int j = 0; j < count; j++) {
      int at = unknown[j];
      for (int i = j; i < count && i - j <= width && unknown[i] - at <= order; i++) {
        cholesky.set(i, j, b[unknown[i] - at]);
      }
      double sum = b[0] * current[at];
      for (int l = 1; l <= order; l++) {
        sum += b[l] * (current[at - l] + current[at + l]);
      }
      d[j] = sum;
    }
    if (!cholesky.factor()) {
      return false;
    }
    cholesky.solve(d);
    return true;
  }

  private void hann(int length) {
    if (windowLength != length) {
      for (int n = 0; n < length; n++) {
        window[n] = 0.5 - 0.5 * StrictMath.cos(2 * Math.PI * (n + 0.5) / length);
      }
      windowLength = length;
    }
  }
}
