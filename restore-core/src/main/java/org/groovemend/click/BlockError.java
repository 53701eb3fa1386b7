package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.signal.predict.FollowedAutocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;

/**
 * AR model of one block, the block's forward and two-sided prediction error, and the scale of the
 * error about every sample. One instance per thread; the arrays are shared with the search for
 * places.
 */
final class BlockError {
  private static final double FIT_NOISE = 1e-7;

  private final int hop;
  private final int size;
  private final int order;
  private final int stretch;
  private final int stride;
  private final FollowedAutocorrelation autocorrelation;
  private final double[] window;
  private final double[] r;
  private final double[] work;
  private final double[] most;

  /** Prediction-error filter of the last fit. */
  final double[] a;

  /** Its correlation. */
  final double[] b;

  /** The block with what was found filled. */
  final double[] z;

  /** Forward residual of z, from index {@code order} on. */
  final double[] e;

  /** Correlation of the residual with the filter, {@code order} samples off both ends. */
  final double[] y;

  /** Scale of the error about every sample. */
  final double[] scales;

  private int fits;

  BlockError(ClickGeometry g) {
    hop = g.hop();
    size = g.window();
    order = g.order();
    stretch = hop / 4;
    stride = hop / 1024;
    autocorrelation = new FollowedAutocorrelation(size, order);
    window = new double[size];
    MidpointHann.fill(window, size);
    r = new double[order + 1];
    a = new double[order + 1];
    b = new double[order + 1];
    z = new double[size];
    e = new double[size];
    y = new double[size];
    work = new double[size];
    scales = new double[size];
    most = new double[size / stretch];
  }

  /** Begins a new block. */
  void load(double[] signal, int origin) {
    System.arraycopy(signal, origin, z, 0, size);
    fits = 0;
  }

  /**
   * Fits the model to z.
   *
   * @return false if there is no sound
   */
  boolean fit(double floor) {
    if (fits++ == 0) {
      autocorrelation.compute(z, 0, size, window, r);
    } else {
      autocorrelation.follow(z, 0, size, window, 0, size, r);
    }
    if (!(r[0] > floor * floor * size * 1e-2) || !(r[0] > 1e-200)) {
      return false;
    }
    r[0] *= 1 + FIT_NOISE;
    LevinsonDurbin.solve(r, order, a, null);
    PredictionFilter.coefficientCorrelation(a, order, b);
    return true;
  }

  /** Brings residual and two-sided error up to date where they depend on z in [from, to). */
  void filter(int from, int to) {
    residual(from, to + order);
    matched(from - order, to + order);
  }

  private void residual(int from, int to) {
    int f = Math.max(order, from);
    int t = Math.min(size, to);
    if (t > f) {
      PredictionFilter.residual(a, order, z, f, t, e);
    }
  }

  private void matched(int from, int to) {
    int f = Math.max(order, from);
    int t = Math.min(size - order, to);
    if (t > f) {
      PredictionFilter.matched(a, order, e, f, t, y);
    }
  }

  /**
   * True if no error is larger than {@code limit} scales in the block's own half of the window:
   * most blocks end here, at half the work. Otherwise the errors are those of the whole window
   * afterwards.
   */
  boolean quiet(double limit, double floor) {
    int from = hop / 2 - order;
    int to = 3 * hop / 2 + order;
    residual(from, to + order);
    matched(from, to);
    if (surelyQuiet(from, to, limit)) {
      return true;
    }
    setScale(from, to, floor);
    double weight = 1 / Math.sqrt(b[0]);
    for (int n = from; n < to; n++) {
      double least = limit * scales[n];
      if (Math.abs(e[n]) > least || weight * Math.abs(y[n]) > least) {
        residual(0, from);
        residual(to + order, size);
        matched(0, from);
        matched(to, size);
        return false;
      }
    }
    return true;
  }

  /**
   * The same by counting instead of medians, where that is enough to tell: no error is larger than
   * {@code limit} scales if at least half the errors of each stretch are larger than the {@code
   * limit}th part of the largest in it and its neighbours, the scale being a median joined by
   * straight lines.
   */
  private boolean surelyQuiet(int from, int to, double limit) {
    double weight = 1 / Math.sqrt(b[0]);
    int stretches = 0;
    for (int s = from; s < to; stretches++) {
      int t = stretchEnd(s, to);
      most[stretches] = Math.max(largest(e, s, t), weight * largest(y, s, t));
      s = t;
    }
    int i = 0;
    for (int s = from; s < to; i++) {
      int t = stretchEnd(s, to);
      double top = Math.max(most[Math.max(0, i - 1)], most[Math.min(stretches - 1, i + 1)]);
      double least = Math.max(top, most[i]) / (limit * RobustScale.NORMAL);
      if (!halfReaches(least, e, s, t) && !halfReaches(least / weight, y, s, t)) {
        return false;
      }
      s = t;
    }
    return true;
  }

  private static double largest(double[] v, int from, int to) {
    double most = 0;
    for (int n = from; n < to; n++) {
      // not Math.max, which minds signed zeros and is many times slower
      double size = Math.abs(v[n]);
      if (size > most) {
        most = size;
      }
    }
    return most;
  }

  /** Whether the upper median is at least {@code least}. */
  private boolean halfReaches(double least, double[] v, int from, int to) {
    long bits = Double.doubleToRawLongBits(least);
    int below = 0;
    int n = 0;
    for (int i = from; i < to; i += stride) {
      // the bits of positive numbers are in the numbers' order: no branch to guess wrong
      below += (int) ((Double.doubleToRawLongBits(Math.abs(v[i])) - bits) >>> 63);
      n++;
    }
    return below <= n / 2;
  }

  private int stretchEnd(int from, int to) {
    return to - from < 2 * stretch ? to : from + stretch;
  }

  /**
   * Sets the scale of [from, to): medians of short stretches, joined by straight lines.
   *
   * @param floor least scale
   */
  void setScale(int from, int to, double floor) {
    int last = -1;
    double before = 0;
    for (int s = from; s < to; ) {
      int t = stretchEnd(s, to);
      double v = Math.max(floor, Math.max(scaleOf(y, s, t) / Math.sqrt(b[0]), scaleOf(e, s, t)));
      int centre = (s + t) / 2;
      if (last < 0) {
        Arrays.fill(scales, from, centre, v);
      } else {
        double step = (v - before) / (centre - last);
        for (int n = last; n < centre; n++) {
          scales[n] = before + step * (n - last);
        }
      }
      last = centre;
      before = v;
      s = t;
    }
    Arrays.fill(scales, last, to, before);
  }

  /**
   * Of every sample at the lower rates, of fewer at the higher ones: about 256 tell the scale to 7
   * per cent.
   */
  private double scaleOf(double[] v, int from, int to) {
    int n = 0;
    for (int i = from; i < to; i += stride) {
      work[n++] = Math.abs(v[i]);
    }
    return RobustScale.NORMAL * Median.of(work, 0, n);
  }

  /** Scale of the two-sided error in [from, to), as far as there is one; 0 if that is too short. */
  double scaleBetween(int from, int to) {
    int f = Math.max(order, from);
    int t = Math.min(size - order, to);
    return t - f < 16 ? 0 : RobustScale.aboutZero(y, f, t, work);
  }

  double backward(int n) {
    double sum = 0;
    for (int k = 0; k <= order; k++) {
      sum += a[k] * z[n + k];
    }
    return sum;
  }

  double level() {
    double sum = 0;
    for (double s : z) {
      sum += s * s;
    }
    return Math.sqrt(sum / size);
  }
}
