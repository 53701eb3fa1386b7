package org.groovemend.speed;

/**
 * A smooth curve through points that never swings past them: piecewise cubic Hermite, slopes by the
 * weighted harmonic mean (F. Fritsch and J. Butland, "A method for constructing local monotone
 * piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5(2), 1984), at the ends by the
 * three-point formula held to the sign of the first step. Constant outside.
 */
final class MonotoneCubic {
  private final double[] x;
  private final double[] y;
  private final double[] slope;

  /**
   * @param x growing, one or more
   */
  MonotoneCubic(double[] x, double[] y) {
    this.x = x.clone();
    this.y = y.clone();
    int n = x.length;
    slope = new double[n];
    if (n < 2) {
      return;
    }
    double[] h = new double[n - 1];
    double[] step = new double[n - 1];
    for (int i = 0; i < n - 1; i++) {
      h[i] = x[i + 1] - x[i];
      step[i] = (y[i + 1] - y[i]) / h[i];
    }
    if (n == 2) {
      slope[0] = step[0];
      slope[1] = step[0];
      return;
    }
    for (int i = 1; i < n - 1; i++) {
      if (step[i - 1] * step[i] > 0) {
        double a = 2 * h[i] + h[i - 1];
        double b = h[i] + 2 * h[i - 1];
        slope[i] = (a + b) / (a / step[i - 1] + b / step[i]);
      }
    }
    slope[0] = end(h[0], h[1], step[0], step[1]);
    slope[n - 1] = end(h[n - 2], h[n - 3], step[n - 2], step[n - 3]);
  }

  private static double end(double h, double next, double step, double nextStep) {
    double slope = ((2 * h + next) * step - h * nextStep) / (h + next);
    if (slope * step <= 0) {
      return 0;
    }
    return step * nextStep <= 0 && Math.abs(slope) > 3 * Math.abs(step) ? 3 * step : slope;
  }

  double value(double at) {
    int n = x.length;
    if (at <= x[0]) {
      return y[0];
    }
    if (at >= x[n - 1]) {
      return y[n - 1];
    }
    int i = 0;
    while (at >= x[i + 1]) {
      i++;
    }
    return hermite(x[i + 1] - x[i], at - x[i], y[i], y[i + 1], slope[i], slope[i + 1]);
  }

  /** Cubic over a length from 0 to {@code h} by values and slopes at its ends. */
  static double hermite(double h, double at, double y0, double y1, double slope0, double slope1) {
    double s = at / h;
    double r = 1 - s;
    return r * r * ((1 + 2 * s) * y0 + at * slope0)
        + s * s * ((3 - 2 * s) * y1 - (h - at) * slope1);
  }
}
