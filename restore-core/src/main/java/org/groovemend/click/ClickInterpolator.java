package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.RobustScale;

/**
 * Fills a gap with the samples of least residual energy under an AR model of its surroundings,
 * fitting and filling in turn (Janssen, Veldhuis and Vries 1986). Gaps nearer than the order are
 * solved together. Two rounds find the extent and a first fill; a {@link Rung}, by the length of
 * the gap, makes the last one. One instance per thread.
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

  /** Longest gaps of the first two rungs at 44.1 and 48 kHz: about 1 and 5 ms. */
  private static final int SHORT = 48;

  private static final int LONG = 240;

  /** Longest gap, about 0.25 ms, to which a higher order without the other wall brings nothing. */
  private static final int BRIEF = 12;

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
  private final double[] window;
  private final double[] current;
  private final double[] residual;
  private final double[] work;
  private final GapSystem system;
  private final int scale;
  private final OtherWall wall;

  /** By rising length of gap; those the longest gap does not need are null. */
  private final Rung[] rungs = new Rung[3];

  private Rung first;
  private Rung used;
  private boolean aided;
  private final double[] kept;
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
    window = new double[longestWindow];
    current = new double[longestWindow + 2 * order];
    residual = new double[current.length];
    weighted = new double[current.length];
    work = new double[current.length];
    kept = new double[longestWindow];
    system = new GapSystem(order, longestWindow);
    scale = g.hop() / 1024;
    int most = longestGap();
    wall = new OtherWall(8 * scale, 1024, most);
    if (rounds > 2) {
      int high = Math.min(2048, 4 * order * scale);
      int brief = SHORT * scale;
      int low = Math.min(high, 2 * order);
      // so that context, order and gap fit a transform of a power of two
      rungs[0] = new Rung(low, Math.min(g.longContext(), (4096 * scale - low / 2) - brief), brief);
      first = new Rung(order, context, BRIEF * scale);
      if (most > brief) {
        rungs[1] = new Rung(high, Math.min(g.longContext(), 4096 * scale), LONG * scale);
      }
      if (most > LONG * scale) {
        rungs[2] = new Rung(high, g.longContext(), most);
      }
    }
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
    int filled = roughly(signal, gaps, start, end, nextGap, from, to, out);
    if (filled > 0) {
      climb(signal, gaps, other, otherGaps, start, start + filled, end - start, from, to, out);
    }
    return filled;
  }

  /** Extent and a first fill, as {@link #fill} has them before the last, costlier one. */
  int roughly(
      double[] signal,
      boolean[] gaps,
      int start,
      int end,
      int nextGap,
      int from,
      int to,
      double[] out) {
    used = null;
    aided = false;
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
      if (fits == 2) {
        meanSquareError = variance * system.inverseTrace() / system.count();
        break;
      }
    }
    System.arraycopy(current, start + shift, out, 0, close - start);
    return close - start;
  }

  /** Fills anew on the rung for the length of the gap. */
  private void climb(
      double[] x,
      boolean[] gaps,
      double[] y,
      boolean[] otherGaps,
      int start,
      int close,
      int core,
      int from,
      int to,
      double[] out) {
    int reach = Math.max(48 * context / 2048, core);
    int m = close - start;
    int step = m <= SHORT * scale ? 0 : m <= LONG * scale ? 1 : 2;
    Rung rung = rungs[step];
    if (rung == null) {
      return;
    }
    boolean sound = y != null;
    int margin = reach + wall.taps();
    for (int n = Math.max(from, start - margin); sound && n < Math.min(to, close + margin); n++) {
      sound = !otherGaps[n];
    }
    if (sound) {
      System.arraycopy(x, start, kept, 0, m);
      System.arraycopy(out, 0, x, start, m);
      sound = wall.fit(x, y, start, close, from, to);
      System.arraycopy(kept, 0, x, start, m);
    }
    if (!sound && m <= BRIEF * scale) {
      rung = first;
    }
    int again = step == 0 ? rounds - 2 : rounds - 1;
    if (rung.fill(x, gaps, y, sound ? wall : null, start, close, from, to, again, out)) {
      used = rung;
      aided = sound;
      meanSquareError = rung.meanSquareError();
    }
  }

  /** Whether the last fill went by the other groove wall as well. */
  boolean aided() {
    return aided;
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
    system.model(a);
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
    return meanSquareError;
  }

  /** Order of the model that made the last fill. */
  int order() {
    return used == null ? order : used.order();
  }

  private void hann(int length) {
    if (windowLength != length) {
      MidpointHann.fill(window, length);
      windowLength = length;
    }
  }
}
