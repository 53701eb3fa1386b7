package org.groovemend.thump;

import java.util.Arrays;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.Median;

/**
 * What the low band of undamaged sound is like at a place: axes in the plane of the two channels
 * along which it excites itself independently, and an AR model along each. One instance per thread.
 */
final class MusicModel {
  private static final int ORDER = ThumpGeometry.ORDER;

  /** White noise added to a fit, as a share of its power: keeps the model from blowing up. */
  private static final double FIT_NOISE = 1e-6;

  /** Least excitation, as a share of the mean square. */
  private static final double LEAST_EXCITATION = 1e-10;

  private final int channels;
  private final double[][] a;
  private final double[] deviation;
  private final double[][] residual;
  private final double[][] power;
  private final double[] r = new double[ORDER + 1];
  private final double[] other = new double[ORDER + 1];
  private final double[] part = new double[ORDER + 1];
  private Autocorrelation autocorrelation;
  private double[] window = new double[0];
  private int windowLength;
  private double[] piece = new double[0];
  private double[] work = new double[0];

  /** Direction of the first axis; the second is at right angles. */
  private double left = 1;

  private double right;

  MusicModel(int channels) {
    this.channels = channels;
    a = new double[channels][ORDER + 1];
    deviation = new double[channels];
    power = new double[channels][ORDER + 1];
    residual = new double[channels][0];
  }

  /** Order of the models. */
  int order() {
    return ORDER;
  }

  double[] coefficients(int axis) {
    return a[axis];
  }

  /** Standard deviation of the excitation; 0 if nothing is heard along the axis. */
  double deviation(int axis) {
    return deviation[axis];
  }

  /** True if there is something along the axis. */
  boolean active(int axis) {
    return deviation[axis] > 0;
  }

  /** Share of channel {@code c} in the axis. */
  double share(int c, int axis) {
    if (channels == 1) {
      return 1;
    }
    if (axis == 0) {
      return c == 0 ? left : right;
    }
    return c == 0 ? -right : left;
  }

  /**
   * Fits to {@code [from, gapFrom)} and {@code [gapTo, to)}.
   *
   * @param x one array per channel
   * @param robust true if the deviation shall be that of the bulk of the samples
   * @return false if nothing is heard at all
   */
  boolean fit(double[][] x, int from, int gapFrom, int gapTo, int to, boolean robust) {
    if (to - from <= 4 * ORDER) {
      return false;
    }
    if (gapFrom <= from) {
      return gapTo < to && fit(x, gapTo, to, to, to, robust);
    }
    ensure(to);
    if (channels == 2) {
      // each channel on its own first: the sum of two does not depend on their order
      Arrays.fill(r, 0);
      accumulate(x[0], from, gapFrom);
      accumulate(x[0], gapTo, to);
      System.arraycopy(r, 0, other, 0, ORDER + 1);
      Arrays.fill(r, 0);
      accumulate(x[1], from, gapFrom);
      accumulate(x[1], gapTo, to);
      for (int k = 0; k <= ORDER; k++) {
        r[k] += other[k];
      }
      if (!(r[0] > 1e-200)) {
        return false;
      }
      r[0] *= 1 + FIT_NOISE;
      LevinsonDurbin.solve(r, ORDER, a[0], null);
      excite(x[0], a[0], from, gapFrom, gapTo, to, residual[0]);
      excite(x[1], a[0], from, gapFrom, gapTo, to, residual[1]);
      turn(from, gapFrom, gapTo, to);
    }
    boolean any = false;
    for (int k = 0; k < channels; k++) {
      any |= fitAxis(x, k, from, gapFrom, gapTo, to, robust);
    }
    return any;
  }

  private boolean fitAxis(
      double[][] x, int k, int from, int gapFrom, int gapTo, int to, boolean robust) {
    project(x, k, from, to, work, from);
    Arrays.fill(r, 0);
    accumulate(work, from, gapFrom);
    accumulate(work, gapTo, to);
    deviation[k] = 0;
    if (!(r[0] > 1e-200)) {
      Arrays.fill(a[k], 0);
      return false;
    }
    r[0] *= 1 + FIT_NOISE;
    LevinsonDurbin.solve(r, ORDER, a[k], null);
    excite(work, a[k], from, gapFrom, gapTo, to, residual[k]);
    double power = 0;
    int count = 0;
    for (int n = from; n < to; n = n + 1 == gapFrom ? gapTo : n + 1) {
      power += work[n] * work[n];
      piece[count++] = residual[k][n] * residual[k][n];
    }
    double floor = LEAST_EXCITATION * power / count;
    double variance = 0;
    if (robust) {
      variance = Median.of(piece, 0, count) / 0.455;
    } else {
      for (int i = 0; i < count; i++) {
        variance += piece[i];
      }
      variance /= count;
    }
    deviation[k] = Math.sqrt(Math.max(variance, floor));
    PredictionFilter.coefficientCorrelation(a[k], ORDER, this.power[k]);
    double scale = 1 / (deviation[k] * deviation[k]);
    for (int l = 0; l <= ORDER; l++) {
      this.power[k][l] *= scale;
    }
    return true;
  }

  /** Correlation of the whitening filter's response, lags 0 to the order. */
  double[] power(int axis) {
    return power[axis];
  }

  /** The samples as seen along the axis, written from index {@code at} on. */
  void project(double[][] x, int axis, int from, int to, double[] out, int at) {
    if (channels == 1) {
      System.arraycopy(x[0], from, out, at, to - from);
      return;
    }
    double l = share(0, axis);
    double r1 = share(1, axis);
    double[] x0 = x[0];
    double[] x1 = x[1];
    int shift = at - from;
    for (int n = from; n < to; n++) {
      out[n + shift] = l * x0[n] + r1 * x1[n];
    }
  }

  /**
   * Whitened data filtered backwards, whose product with a waveform is that of the data with the
   * whitened waveform.
   *
   * @param e whitened; read up to {@code to + order}
   */
  void match(int axis, double[] e, int from, int to, double[] out) {
    PredictionFilter.matched(a[axis], ORDER, e, from, to, out);
    double scale = 1 / deviation[axis];
    for (int n = from; n < to; n++) {
      out[n] *= scale;
    }
  }

  /** Prediction error over the deviation, from {@code from + order} on. */
  void whiten(int axis, double[] x, int from, int to, double[] out) {
    PredictionFilter.residual(a[axis], ORDER, x, from + ORDER, to, out);
    double scale = 1 / deviation[axis];
    for (int n = from + ORDER; n < to; n++) {
      out[n] *= scale;
    }
  }

  private void excite(
      double[] x, double[] model, int from, int gapFrom, int gapTo, int to, double[] out) {
    part(x, model, from, gapFrom, out);
    part(x, model, gapTo, to, out);
  }

  /** The first samples of a part, which cannot be predicted, count as silent. */
  private static void part(double[] x, double[] model, int from, int to, double[] out) {
    int start = Math.min(to, from + ORDER);
    Arrays.fill(out, Math.min(from, to), start, 0);
    if (to > start) {
      PredictionFilter.residual(model, ORDER, x, start, to, out);
    }
  }

  /** Principal axes of the excitations of the two channels. */
  private void turn(int from, int gapFrom, int gapTo, int to) {
    double ll = 0;
    double rr = 0;
    double lr = 0;
    for (int n = from; n < to; n = n + 1 == gapFrom ? gapTo : n + 1) {
      double l = residual[0][n];
      double s = residual[1][n];
      ll += l * l;
      rr += s * s;
      lr += l * s;
    }
    double half = (ll - rr) / 2;
    double radius = Math.sqrt(half * half + lr * lr);
    double p = half >= 0 ? radius + half : lr;
    double q = half >= 0 ? lr : radius - half;
    double norm = Math.sqrt(p * p + q * q);
    left = norm > 0 ? p / norm : 1;
    right = norm > 0 ? q / norm : 0;
  }

  private void accumulate(double[] x, int from, int to) {
    int n = to - from;
    if (n <= 2 * ORDER) {
      return;
    }
    taper(n);
    autocorrelation.compute(x, from, n, window, part);
    for (int k = 0; k <= ORDER; k++) {
      r[k] += part[k];
    }
  }

  /** Hann's window; the cosine by turning a phasor, which leaves some 1e-13 in a few thousand. */
  private void taper(int n) {
    if (n == windowLength) {
      return;
    }
    windowLength = n;
    double half = Math.PI / n;
    double re = StrictMath.cos(half);
    double im = StrictMath.sin(half);
    double c = StrictMath.cos(2 * half);
    double s = StrictMath.sin(2 * half);
    for (int i = 0; i < n; i++) {
      window[i] = 0.5 - 0.5 * re;
      double turned = re * c - im * s;
      im = re * s + im * c;
      re = turned;
    }
  }

  private void ensure(int length) {
    if (piece.length < length) {
      piece = new double[length];
      window = new double[length];
      windowLength = 0;
      autocorrelation = new Autocorrelation(length, ORDER);
      work = new double[length];
      for (int k = 0; k < channels; k++) {
        residual[k] = new double[length];
      }
    }
  }
}
