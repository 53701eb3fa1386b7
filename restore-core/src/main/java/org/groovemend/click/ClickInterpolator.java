package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.signal.linear.BandedCholesky;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.RobustScale;

/**
 * Fills a gap with the samples of least residual energy under an AR model of its surroundings,
 * fitting and filling in turn (Janssen, Veldhuis and Vries 1986). Gaps nearer than the order are
 * solved together. One instance per thread.
 */
final class ClickInterpolator {
  private static final double FIT_NOISE = 1e-9;

  /**
   * Share of a sample's variance that declaring it unknown costs; undamaged samples gain 1 on
   * average.
   */
  private static final double PRICE = 2;

  /** Gain, in variances, below which a gap is not made longer. */
  private static final double ENTRY = 8;

  private final int order;
  private final int context;
  private final int rounds;
  private final int longest;
  private final int longestWindow;
  private final Autocorrelation autocorrelation;
  private final double[] r;

  /** Sums of the weighted samples as they were at the last fit. */
  private final double[] sums;

  private final double[] mirrored;
  private final double[] weighted;
  private final double[] a;
  private final double[] b;
  private final double[] window;
  private final double[] current;
  private final double[] residual;
  private final double[] work;
  private final int[] unknown;
  private final double[] d;
  private final BandedCholesky cholesky = new BandedCholesky();
  private int windowLength = -1;
  private double meanSquareError;
  private int changedFrom;
  private int changedTo;

  ClickInterpolator(ClickGeometry g, int rounds) {
    this.order = g.repairOrder();
    this.context = g.repairContext();
    this.rounds = rounds;
    this.longest = g.longest();
    this.longestWindow = 2 * context + 4 * g.longest();
    autocorrelation = new Autocorrelation(longestWindow, order);
    r = new double[order + 1];
    sums = new double[order + 1];
    mirrored = new double[order + 1];
    a = new double[order + 1];
    b = new double[order + 1];
    window = new double[longestWindow];
    current = new double[longestWindow + 2 * order];
    residual = new double[current.length];
    weighted = new double[current.length];
    work = new double[current.length];
    unknown = new int[longestWindow];
    d = new double[longestWindow];
  }

  /** Longest gap that {@link #fill} takes. */
  int longestGap() {
    return longestWindow - 2 * context;
  }

  /**
   * Fills from {@code start} on, to {@code end} or as far after it as the damage is seen to reach.
   *
   * @param signal with first guesses in all gaps
   * @param gaps true where a sample is unknown
   * @param nextGap first index of the next gap, to which this one may not grow
   * @param from first index of the signal that may be read
   * @param to end of it
   * @param out receives the fill, at most {@link #longestGap()} samples
   * @return samples filled; 0 if no model could be fitted
   */
  int fill(
      double[] signal,
      boolean[] gaps,
      int start,
      int end,
      int nextGap,
      int from,
      int to,
      double[] out) {
    int lo = Math.max(from, start - context);
    int hi = Math.min(to, end + context);
    int length = hi - lo;
    int shift = order - lo;
    Arrays.fill(current, 0);
    System.arraycopy(signal, lo, current, order, length);
    hann(length);
    int first = Math.max(lo, start - order);
    int limit = Math.min(Math.min(hi, nextGap), start + longest);
    int reach = Math.max(48 * context / 2048, end - start);
    int close = Math.max(end, Math.min(limit, end + reach));
    int fits = 0;
    changedFrom = first + shift;
    changedTo = Math.min(hi, start + longest + order) + shift;
    for (; ; ) {
      // a generous gap first, so that the model knows nothing of the damage
      double variance = fit(length, fits == 0);
      if (!(variance > 0)) {
        return 0;
      }
      fits++;
      if (fits == 2) {
        System.arraycopy(signal, start, current, start + shift, close - start);
        double after = residualVariance(close + shift, Math.min(hi, close + context / 2) + shift);
        close = extent(gaps, first, start, end, close, shift, Math.max(variance, after));
      }
      if (!solve(gaps, first, start, close, hi, shift)) {
        return 0;
      }
      if (fits >= Math.max(2, rounds)) {
        meanSquareError = variance * cholesky.inverseTrace() / (close - start);
        break;
      }
    }
    System.arraycopy(current, start + shift, out, 0, close - start);
    return close - start;
  }

  /** As the bulk of the samples has it, so that what is left of the damage does not count. */
  private double residualVariance(int from, int to) {
    if (to - from < 16) {
      return 0;
    }
    PredictionFilter.residual(a, order, current, from, to, residual);
    double s = RobustScale.aboutZero(residual, from, to, work);
    return s * s;
  }

  /**
   * Fits to the whole of the context the first time, then takes only what a fill has changed into
   * account.
   */
  private double fit(int length, boolean anew) {
    if (anew) {
      autocorrelation.compute(current, order, length, window, sums);
      for (int n = 0; n < length; n++) {
        weighted[order + n] = window[n] * current[order + n];
      }
      Arrays.fill(weighted, order + length, 2 * order + length, 0);
    } else {
      follow();
    }
    if (!(sums[0] > 1e-200)) {
      return 0;
    }
    System.arraycopy(sums, 0, r, 0, order + 1);
    r[0] *= 1 + FIT_NOISE;
    double error = LevinsonDurbin.solve(r, order, a, null);
    PredictionFilter.coefficientCorrelation(a, order, b);
    // the mean square of the window is 3/8
    return error / (0.375 * length);
  }

  /**
   * Brings the sums up to date for the samples between {@code changedFrom} and {@code changedTo}.
   */
  private void follow() {
    Arrays.fill(mirrored, 0, order + 1, 0);
    for (int n = changedFrom; n < changedTo; n++) {
      double change = window[n - order] * current[n] - weighted[n];
      if (change != 0) {
        sums[0] += change * (weighted[n] + change);
        accumulate(change, weighted, n, sums, order + 1);
        accumulate(change, weighted, n - order, mirrored, order);
        weighted[n] += change;
      }
    }
    for (int k = 1; k <= order; k++) {
      sums[k] += mirrored[order - k];
    }
  }

  private static void accumulate(double c, double[] x, int at, double[] out, int count) {
    for (int i = 0; i < count; i++) {
      out[i] += c * x[at + i];
    }
  }

  private boolean solve(boolean[] gaps, int first, int start, int close, int hi, int shift) {
    int count = 0;
    for (int n = first; n < Math.min(hi, close + order); n++) {
      if (gaps[n] || (n >= start && n < close)) {
        unknown[count++] = n + shift;
      }
    }
    if (!factor(count)) {
      return false;
    }
    cholesky.solve(d);
    for (int i = 0; i < count; i++) {
      current[unknown[i]] -= d[i];
    }
    return true;
  }

  /**
   * End of the damage, at most {@code probe}: the one that maximises the drop in residual energy,
   * in units of its variance, less {@link #PRICE} for every sample declared unknown. One
   * factorisation gives the drop for every end.
   */
  private int extent(
      boolean[] gaps, int first, int start, int end, int probe, int shift, double variance) {
    int count = 0;
    int own = 0;
    for (int n = first; n < probe; n++) {
      if (n == start) {
        own = count;
      }
      if (gaps[n] || n >= start) {
        unknown[count++] = n + shift;
      }
    }
    if (probe <= end || !factor(count)) {
      return end;
    }
    cholesky.forward(d);
    double gain = 0;
    double most = ENTRY;
    int best = end;
    for (int i = own + end - start; i < count; i++) {
      gain += d[i] * d[i] / variance - PRICE;
      if (gain > most) {
        most = gain;
        best = start + i - own + 1;
      }
    }
    return best;
  }

  /**
   * Expected mean square error of the last fill: residual variance times the mean diagonal of the
   * inverse matrix.
   */
  double meanSquareError() {
    return meanSquareError;
  }

  int order() {
    return order;
  }

  /** Factors the system of the listed samples; d receives their two-sided errors. */
  private boolean factor(int count) {
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
    }
    for (int j = 0; j < count; ) {
      int t = j + 1;
      while (t < count && unknown[t] == unknown[t - 1] + 1) {
        t++;
      }
      twoSidedErrors(j, t);
      j = t;
    }
    return cholesky.factor();
  }

  /** Of the unknown samples number j to t, which lie side by side. */
  private void twoSidedErrors(int j, int t) {
    int at = unknown[j];
    for (int i = j; i < t; i++) {
      d[i] = b[0] * current[at + i - j];
    }
    for (int l = 1; l <= order; l++) {
      addNeighbours(b[l], current, at - l, at + l, d, j, t - j);
    }
  }

  private static void addNeighbours(
      double c, double[] x, int left, int right, double[] out, int at, int count) {
    for (int i = 0; i < count; i++) {
      out[at + i] += c * (x[left + i] + x[right + i]);
    }
  }

  private void hann(int length) {
    if (windowLength != length) {
      MidpointHann.fill(window, length);
      windowLength = length;
    }
  }
}
