package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.signal.predict.FollowedAutocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.RobustScale;

/**
 * Fills a gap with the samples of least residual energy under an AR model of its surroundings,
 * fitting and filling in turn (Janssen, Veldhuis and Vries 1986). Gaps nearer than the order are
 * solved together. A few rounds find the extent and a first fill; the {@link Ladder} makes the last
 * one. One instance per thread.
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

  /**
   * Times extent and fill are found for a last fill: the second finds a better model, a third none.
   */
  private static final int PASSES = 2;

  /** Samples at 44.1 and 48 kHz from which the error's variance after a gap is taken. */
  private static final int AFTER = 1024;

  private static final int AFTER_PIECES = 8;

  private final int order;
  private final int context;
  private final int longest;
  private final int longestWindow;
  private final FollowedAutocorrelation autocorrelation;
  private final double[] r;
  private final double[] a;
  private final double[] window;
  private final double[] current;
  private final double[] residual;
  private final double[] errors;
  private final double[] work;
  private final GapSystem system;
  private final int scale;
  private final Ladder ladder;
  private boolean climbed;
  private int windowLength = -1;
  private double meanSquareError;
  private int changedFrom;
  private int changedTo;

  ClickInterpolator(ClickGeometry g, int rounds) {
    this.order = g.repairOrder();
    this.context = g.repairContext();
    this.longest = g.longest();
    this.longestWindow = 2 * context + 4 * g.longest();
    autocorrelation = new FollowedAutocorrelation(longestWindow, order);
    r = new double[order + 1];
    a = new double[order + 1];
    window = new double[longestWindow];
    current = new double[longestWindow + 2 * order];
    residual = new double[current.length];
    errors = new double[current.length];
    work = new double[current.length];
    system = new GapSystem(order, longestWindow);
    scale = g.hop() / 1024;
    ladder = rounds > 2 ? new Ladder(g, rounds, longestGap()) : null;
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
    return fill(signal, gaps, null, null, start, end, nextGap, from, to, out);
  }

  /**
   * The same with the other groove wall as a witness wherever it is sound in the gap.
   *
   * @param other channel with first guesses in its gaps, same indices; null if there is none
   * @param otherGaps true where one of its samples is unknown
   */
  int fill(
      double[] signal,
      boolean[] gaps,
      double[] other,
      boolean[] otherGaps,
      int start,
      int end,
      int nextGap,
      int from,
      int to,
      double[] out) {
    int filled = extentAndFill(signal, gaps, start, end, nextGap, from, to, PASSES, out);
    if (filled > 0) {
      climbed =
          ladder != null
              && ladder.climb(
                  signal,
                  gaps,
                  other,
                  otherGaps,
                  start,
                  start + filled,
                  end - start,
                  from,
                  to,
                  out);
    }
    return filled;
  }

  /** Extent and a first fill at least cost. */
  int roughly(
      double[] signal,
      boolean[] gaps,
      int start,
      int end,
      int nextGap,
      int from,
      int to,
      double[] out) {
    return extentAndFill(signal, gaps, start, end, nextGap, from, to, 1, out);
  }

  private int extentAndFill(
      double[] signal,
      boolean[] gaps,
      int start,
      int end,
      int nextGap,
      int from,
      int to,
      int passes,
      double[] out) {
    climbed = false;
    int lo = Math.max(from, start - context);
    int hi = Math.min(to, end + context);
    int length = hi - lo;
    int shift = order - lo;
    Arrays.fill(current, 0);
    System.arraycopy(signal, lo, current, order, length);
    hann(length);
    int first = Math.max(lo, start - order);
    int limit = Math.min(Math.min(hi, nextGap), start + longest);
    int reach = Math.max(48 * scale, end - start);
    int generous = Math.max(end, Math.min(limit, end + reach));
    int close = generous;
    changedFrom = first + shift;
    changedTo = Math.min(hi, start + longest + order) + shift;
    for (int pass = 0; pass < passes; pass++) {
      // a generous gap first, so that the model knows nothing of the damage
      if (!(fit(length, pass == 0) > 0) || !solve(gaps, first, start, generous, hi, shift)) {
        return 0;
      }
      double variance = fit(length, false);
      if (!(variance > 0)) {
        return 0;
      }
      System.arraycopy(signal, start, current, start + shift, generous - start);
      double after =
          residualVariance(generous + shift, Math.min(hi, generous + AFTER * scale) + shift);
      close = extent(gaps, first, start, end, generous, shift, Math.max(variance, after));
      if (!solve(gaps, first, start, close, hi, shift)) {
        return 0;
      }
      meanSquareError = variance * system.inverseTrace() / system.count();
    }
    System.arraycopy(current, start + shift, out, 0, close - start);
    return close - start;
  }

  /**
   * Variance of the error in the {@link #AFTER} samples from {@code from} on, as the bulk of them
   * has it, so that what is left of the damage does not count. Evenly spread pieces of a quarter of
   * them are taken: a shorter stretch would miss the rise and fall of a voice.
   */
  private double residualVariance(int from, int to) {
    int piece = AFTER * scale / (4 * AFTER_PIECES);
    int n = 0;
    for (int p = from; p + piece <= to; p += 4 * piece) {
      PredictionFilter.residual(a, order, current, p, p + piece, residual);
      System.arraycopy(residual, p, errors, n, piece);
      n += piece;
    }
    if (n == 0) {
      return 0;
    }
    double s = RobustScale.aboutZero(errors, 0, n, work);
    return s * s;
  }

  /**
   * Fits to the whole of the context the first time, then takes only what a fill has changed into
   * account.
   */
  private double fit(int length, boolean anew) {
    if (anew) {
      autocorrelation.compute(current, order, length, window, r);
    } else {
      autocorrelation.follow(
          current, order, length, window, changedFrom - order, changedTo - order, r);
    }
    if (!(r[0] > 1e-200)) {
      return 0;
    }
    r[0] *= 1 + FIT_NOISE;
    double error = LevinsonDurbin.solve(r, order, a, null);
    system.model(a);
    // the mean square of the window is 3/8
    return error / (0.375 * length);
  }

  private boolean solve(boolean[] gaps, int first, int start, int close, int hi, int shift) {
    system.clear();
    for (int n = first; n < Math.min(hi, close + order); n++) {
      if (gaps[n] || (n >= start && n < close)) {
        system.add(n + shift);
      }
    }
    return system.solve(current);
  }

  /**
   * End of the damage, at most {@code probe}: the one that maximises the drop in residual energy,
   * in units of its variance, less {@link #PRICE} for every sample declared unknown. One
   * factorisation gives the drop for every end.
   */
  private int extent(
      boolean[] gaps, int first, int start, int end, int probe, int shift, double variance) {
    if (probe <= end) {
      return end;
    }
    system.clear();
    int own = 0;
    for (int n = first; n < probe; n++) {
      if (n == start) {
        own = system.count();
      }
      if (gaps[n] || n >= start) {
        system.add(n + shift);
      }
    }
    double[] drops = system.drops(current);
    if (drops == null) {
      return end;
    }
    double gain = 0;
    double most = ENTRY;
    int best = end;
    for (int i = own + end - start; i < system.count(); i++) {
      gain += drops[i] / variance - PRICE;
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
    return climbed ? ladder.meanSquareError() : meanSquareError;
  }

  /** Whether the last fill went by the other groove wall as well. */
  boolean aided() {
    return climbed && ladder.aided();
  }

  /** Order of the model that made the last fill. */
  int order() {
    return climbed ? ladder.order() : order;
  }

  private void hann(int length) {
    if (windowLength != length) {
      MidpointHann.fill(window, length);
      windowLength = length;
    }
  }
}
