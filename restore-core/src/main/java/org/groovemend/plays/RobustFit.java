package org.groovemend.plays;

import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;

/**
 * A smooth curve through anchors some of which are wrong: those far from the running median are
 * left out, then Tukey's weights (biweight, 4.685 deviations) four times over. How fast a swing is
 * followed is chosen by what predicts every other anchor best.
 */
record RobustFit(SmoothCurve curve, double followHertz, double scale, double scatterSeconds) {
  private static final double[] FOLLOWED = {0.7, 1, 1.4, 2, 2.8, 4, 5.6, 8, 11};

  /** Nothing needs to be known better: a hundredth of a frame at 48 kHz. */
  private static final double FINEST_SECONDS = 2e-7;

  private static final double TUKEY = 4.685;
  private static final int ROUNDS = 4;

  /** Share of the anchors, the best foreseen, that smoothness is chosen by. */
  private static final double TRUSTED = 0.9;

  /** Anchors on each side of the running median. */
  private static final int REACH = 12;

  /**
   * Fits.
   *
   * @param anchors in order of time, their delays what is left of a curve
   * @param before that curve; the new one takes its place
   * @param gateSeconds those further from the running median are left out
   * @param fixedHertz how fast a swing is followed, or 0 to choose
   */
  static RobustFit of(
      List<Anchor> anchors,
      SmoothCurve before,
      double from,
      double to,
      double gateSeconds,
      double fixedHertz) {
    int n = anchors.size();
    double[] at = new double[n];
    double[] y = new double[n];
    double[] base = new double[n];
    double[] doubt = new double[n];
    for (int i = 0; i < n; i++) {
      at[i] = anchors.get(i).seconds();
      y[i] = anchors.get(i).delaySeconds();
      doubt[i] = anchors.get(i).doubtSeconds();
    }
    // no anchor counts more than the middle one does twice: passages are not as alike as they may
    // be
    double floor = Math.max(FINEST_SECONDS, Median.of(doubt.clone(), 0, n));
    for (int i = 0; i < n; i++) {
      base[i] = 1 / (doubt[i] * doubt[i] + floor * floor);
    }
    double[] near = new double[2 * REACH + 1];
    for (int i = 0; i < n; i++) {
      int first = Math.max(0, i - REACH);
      int some = Math.min(n, i + REACH + 1) - first;
      System.arraycopy(y, first, near, 0, some);
      if (Math.abs(y[i] - Median.of(near, 0, some)) > gateSeconds) {
        base[i] = 0;
      }
    }
    for (int i = 0; i < n; i++) {
      y[i] += before.value(at[i]);
    }
    double follow = fixedHertz > 0 ? fixedHertz : FOLLOWED[FOLLOWED.length - 1];
    double[] weight = base.clone();
    RobustFit fit = weighted(from, to, at, y, base, weight, follow);
    if (fixedHertz > 0) {
      return fit;
    }
    double least = Double.POSITIVE_INFINITY;
    double[] scaled = weight.clone();
    for (int i = 0; i < n; i++) {
      scaled[i] /= fit.scale * fit.scale;
    }
    for (double hertz : FOLLOWED) {
      double lost =
          unforeseen(from, to, at, y, scaled, hertz, 0)
              + unforeseen(from, to, at, y, scaled, hertz, 1);
      // the smoother of two that are alike
      if (lost < least * 0.999) {
        least = lost;
        follow = hertz;
      }
    }
    return weighted(from, to, at, y, base, base.clone(), follow);
  }

  private static RobustFit weighted(
      double from,
      double to,
      double[] at,
      double[] y,
      double[] base,
      double[] weight,
      double follow) {
    SmoothCurve curve = null;
    double scale = 1;
    double[] z = new double[y.length];
    for (int round = 0; round < ROUNDS; round++) {
      curve = SmoothCurve.fit(from, to, at, y, weight, follow);
      int some = 0;
      for (int i = 0; i < y.length; i++) {
        if (base[i] > 0) {
          z[some++] = (y[i] - curve.value(at[i])) * Math.sqrt(base[i]);
        }
      }
      scale = Math.max(1, RobustScale.aboutZero(z, 0, some, new double[Math.max(1, some)]));
      for (int i = 0; i < y.length; i++) {
        double u = (y[i] - curve.value(at[i])) * Math.sqrt(base[i]) / (TUKEY * scale);
        double r = Math.max(0, 1 - u * u);
        weight[i] = base[i] * r * r;
      }
    }
    double sum = 0;
    double all = 0;
    for (int i = 0; i < y.length; i++) {
      double r = y[i] - curve.value(at[i]);
      sum += weight[i] * r * r;
      all += weight[i];
    }
    return new RobustFit(curve, follow, scale, Math.sqrt(sum / Math.max(1e-300, all)));
  }

  /** How far the points of one half lie from the curve through the other. */
  private static double unforeseen(
      double from, double to, double[] at, double[] y, double[] weight, double follow, int left) {
    double[] half = weight.clone();
    for (int i = left; i < half.length; i += 2) {
      half[i] = 0;
    }
    SmoothCurve curve = SmoothCurve.fit(from, to, at, y, half, follow);
    double[] squares = new double[y.length / 2 + 1];
    int some = 0;
    for (int i = left; i < y.length; i += 2) {
      if (weight[i] > 0) {
        double r = y[i] - curve.value(at[i]);
        squares[some++] = weight[i] * r * r;
      }
    }
    // a few lone anchors in a gap must not decide
    Arrays.sort(squares, 0, some);
    double sum = 0;
    for (int i = 0; i < TRUSTED * some; i++) {
      sum += squares[i];
    }
    return sum;
  }
}
