package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.signal.linear.ToeplitzSolver;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;

/**
 * What one groove wall tells of the other: a short two-sided filter from the sound channel to the
 * hurt one, by least squares on both after the same prediction-error filter, so that every band
 * counts by how well it is known and not by its level. One instance per thread.
 */
final class OtherWall {
  private static final int WHITENING = 32;

  /** White noise, re the channel's own, that keeps the system solvable. */
  private static final double RIDGE = 1e-9;

  /** Share of the error's energy that must go for the other wall to be used. */
  private static final double LEAST_GAIN = 0.05;

  private final int taps;
  private final int reach;
  private final Autocorrelation autocorrelation;
  private final double[] r = new double[WHITENING + 1];
  private final double[] a = new double[WHITENING + 1];
  private final double[] window;
  private final double[] own;
  private final double[] other;
  private final double[] column;
  private final double[] filter;
  private final double[] cross;
  private final ToeplitzSolver solver = new ToeplitzSolver();

  /**
   * @param taps each side of the middle one
   * @param reach samples each side of a gap that the filter is fitted to
   * @param longest gap
   */
  OtherWall(int taps, int reach, int longest) {
    this.taps = taps;
    this.reach = reach;
    int most = 2 * reach + longest;
    autocorrelation = new Autocorrelation(most, WHITENING);
    window = new double[most];
    own = new double[most];
    other = new double[most];
    column = new double[2 * taps + 1];
    filter = new double[2 * taps + 1];
    cross = new double[2 * taps + 1];
  }

  int taps() {
    return taps;
  }

  /**
   * Fits the filter outside [start, end).
   *
   * @param x hurt channel with a first fill
   * @param y sound channel, same indices
   * @param from first index that may be read
   * @param to end of it
   * @return false if the other channel tells too little
   */
  boolean fit(double[] x, double[] y, int start, int end, int from, int to) {
    int lo = Math.max(from, start - reach);
    int hi = Math.min(to, end + reach);
    int n = hi - lo;
    if (n < 8 * (WHITENING + 2 * taps)) {
      return false;
    }
    MidpointHann.fill(window, n);
    autocorrelation.compute(x, lo, n, window, r);
    r[0] *= 1 + RIDGE;
    if (!(LevinsonDurbin.solve(r, WHITENING, a, null) > 1e-200)) {
      return false;
    }
    whiten(x, lo, n, own);
    whiten(y, lo, n, other);
    int first = start - lo;
    int last = Math.min(n, end - lo + WHITENING);
    for (int i = 0; i < n; i++) {
      double w = i < WHITENING || (i >= first && i < last) ? 0 : window[i];
      own[i] *= w;
      other[i] *= w;
    }
    double energy = 0;
    for (int i = 0; i < n; i++) {
      energy += own[i] * own[i];
    }
    for (int k = 0; k <= 2 * taps; k++) {
      column[k] = lagged(other, other, k, n);
      cross[k] = k < taps ? lagged(own, other, taps - k, n) : lagged(other, own, k - taps, n);
      filter[k] = cross[k];
    }
    column[0] *= 1 + RIDGE;
    if (!(column[0] > 1e-200) || !solver.solve(column, 2 * taps + 1, filter, 2 * taps + 1)) {
      return false;
    }
    double gain = 0;
    for (int k = 0; k <= 2 * taps; k++) {
      gain += filter[k] * cross[k];
    }
    return gain > LEAST_GAIN * energy;
  }

  /** Estimate of the hurt channel for [from, to); y is taken as 0 outside [least, most). */
  void predict(double[] y, int from, int to, int least, int most, double[] out, int at) {
    Arrays.fill(out, at, at + to - from, 0);
    for (int k = -taps; k <= taps; k++) {
      int lo = Math.max(from, least + k);
      int hi = Math.min(to, most + k);
      add(filter[k + taps], y, lo - k, out, at + lo - from, hi - lo);
    }
  }

  private void whiten(double[] x, int lo, int n, double[] e) {
    Arrays.fill(e, 0, n, 0);
    for (int k = 0; k <= WHITENING; k++) {
      add(a[k], x, lo + WHITENING - k, e, WHITENING, n - WHITENING);
    }
  }

  private static void add(double c, double[] x, int from, double[] out, int at, int count) {
    for (int i = 0; i < count; i++) {
      out[at + i] += c * x[from + i];
    }
  }

  /** {@code sum u[i] v[i + lag]}. */
  private static double lagged(double[] u, double[] v, int lag, int n) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int i = 0;
    for (; i + 3 < n - lag; i += 4) {
      s0 += u[i] * v[i + lag];
      s1 += u[i + 1] * v[i + lag + 1];
      s2 += u[i + 2] * v[i + lag + 2];
      s3 += u[i + 3] * v[i + lag + 3];
    }
    for (; i < n - lag; i++) {
      s0 += u[i] * v[i + lag];
    }
    return s0 + s1 + (s2 + s3);
  }
}
