package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;

/**
 * Fills a gap anew, from a first fill, under a model of higher order and longer context, and under
 * what the other wall tells. One instance per thread.
 */
final class Rung {
  private static final double FIT_NOISE = 1e-9;

  /** Effective samples of a Hann window, a sample of its length: (sum w^2)^2 / sum w^4. */
  private static final double EFFECTIVE = 0.514;

  /** A fill higher than this, re the highest sample of the context, is not believed. */
  private static final double HIGHEST = 2;

  private final int order;
  private final int context;
  private final Autocorrelation autocorrelation;
  private final double[] r;
  private final double[] a;
  private final double[] window;
  private final double[] current;
  private final double[] told;
  private final GapSystem system;
  private int windowLength = -1;
  private double meanSquareError;

  /**
   * @param context samples each side of a gap, at most
   * @param longest gap
   */
  Rung(int order, int context, int longest) {
    this.order = order;
    this.context = context;
    int most = 2 * context + longest;
    autocorrelation = new Autocorrelation(most, order);
    r = new double[order + 1];
    a = new double[order + 1];
    window = new double[most];
    current = new double[most + 2 * order];
    told = new double[most];
    system = new GapSystem(order, most);
  }

  int order() {
    return order;
  }

  /** Expected mean square error of the last fill. */
  double meanSquareError() {
    return meanSquareError;
  }

  /**
   * Fills [start, end) and solves the gaps nearer than the order along with it.
   *
   * @param x with first fills in all gaps
   * @param y other channel if {@code wall} has been fitted to it
   * @param wall null to go by this channel alone
   * @param out holds the first fill; receives the new one if it is good
   * @return whether it is
   */
  boolean fill(
      double[] x,
      boolean[] gaps,
      double[] y,
      OtherWall wall,
      int start,
      int end,
      int from,
      int to,
      int rounds,
      double[] out) {
    int lo = Math.max(from, start - context);
    int hi = Math.min(to, end + context);
    int n = hi - lo;
    if (n - (end - start) < 2 * order) {
      return false;
    }
    int shift = order - lo;
    System.arraycopy(x, lo, current, order, n);
    Arrays.fill(current, 0, order, 0);
    Arrays.fill(current, order + n, 2 * order + n, 0);
    System.arraycopy(out, 0, current, start + shift, end - start);
    double highest = 0;
    for (int i = order; i < order + n; i++) {
      highest = Math.max(highest, Math.abs(current[i]));
    }
    if (wall != null) {
      wall.predict(y, lo, hi, from, to, told, 0);
      for (int i = 0; i < n; i++) {
        current[order + i] -= told[i];
      }
    }
    if (windowLength != n) {
      MidpointHann.fill(window, n);
      windowLength = n;
    }
    for (int k = 0; k < rounds; k++) {
      double variance = fit(n);
      if (!(variance > 0) || !solve(gaps, start, end, lo, hi, shift)) {
        return false;
      }
      meanSquareError = variance * system.inverseTrace() / system.count();
    }
    for (int i = start; i < end; i++) {
      double v = current[i + shift] + (wall == null ? 0 : told[i - lo]);
      if (!(Math.abs(v) <= HIGHEST * highest)) {
        return false;
      }
    }
    for (int i = start; i < end; i++) {
      out[i - start] = current[i + shift] + (wall == null ? 0 : told[i - lo]);
    }
    return true;
  }

  /**
   * Variance of the prediction error as it would be on other sound of the same kind (final
   * prediction error, Akaike 1969).
   */
  private double fit(int n) {
    autocorrelation.compute(current, order, n, window, r);
    if (!(r[0] > 1e-200)) {
      return 0;
    }
    r[0] *= 1 + FIT_NOISE;
    double error = LevinsonDurbin.solve(r, order, a, null) / (0.375 * n);
    system.model(a);
    double share = Math.min(0.9, order / (EFFECTIVE * n));
    return error * (1 + share) / (1 - share);
  }

  private boolean solve(boolean[] gaps, int start, int end, int lo, int hi, int shift) {
    system.clear();
    for (int i = Math.max(lo, start - order); i < Math.min(hi, end + order); i++) {
      if (gaps[i] || (i >= start && i < end)) {
        system.add(i + shift);
      }
    }
    return system.solve(current);
  }
}
