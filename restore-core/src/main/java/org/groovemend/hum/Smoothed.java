package org.groovemend.hum;

/**
 * A line followed over the side.
 *
 * @param re real part of the complex amplitude at the knots
 * @param im imaginary part
 * @param variance expected squared error
 */
record Smoothed(double[] re, double[] im, double[] variance) {
  private static final double[] STEPS = {1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 3e-3, 1e-2, 3e-2, 0.1};

  /**
   * Complex amplitude as a random walk: Kalman filter and Rauch-Tung-Striebel smoother. The walk's
   * step is the likeliest of a row from still to {@code freest}.
   *
   * @param line what was measured
   * @param trust 0 to 1 by knot: the measurement's variance is divided by it
   * @param level amplitude, above 0
   * @param freest largest step of a knot, share of the level's square
   * @param reluctance log odds against each freer step of the row
   */
  static Smoothed of(
      LineSeries line, double[] trust, double level, double freest, double reluctance) {
    int n = line.knots();
    double[] variance = new double[n];
    for (int j = 0; j < n; j++) {
      variance[j] = LineSeries.SHARED * line.floor()[j] / Math.max(trust[j], 1e-9);
    }
    double best = Double.NEGATIVE_INFINITY;
    double chosen = STEPS[0];
    Filter filter = new Filter(n);
    for (int i = 0; i < STEPS.length; i++) {
      double step = STEPS[i];
      if (step <= freest) {
        double likelihood =
            filter.run(line, variance, level, step * level * level) - i * reluctance;
        if (likelihood > best) {
          best = likelihood;
          chosen = step;
        }
      }
    }
    filter.run(line, variance, level, chosen * level * level);
    return filter.smooth(chosen * level * level);
  }

  double power(int j) {
    return re[j] * re[j] + im[j] * im[j];
  }

  /** Whether what was measured at a knot is nearer to nothing than to the line. */
  boolean missing(LineSeries line, int j) {
    double dx = line.re()[j] - re[j];
    double dy = line.im()[j] - im[j];
    return dx * dx + dy * dy > line.power(j) && line.power(j) < power(j) / 4;
  }

  private static final class Filter {
    private final double[] re;
    private final double[] im;
    private final double[] p;

    Filter(int n) {
      re = new double[n];
      im = new double[n];
      p = new double[n];
    }

    /** Log likelihood but for a constant. */
    double run(LineSeries line, double[] variance, double level, double q) {
      double x = 0;
      double y = 0;
      double v = 4 * level * level;
      double sum = 0;
      for (int j = 0; j < re.length; j++) {
        v += j == 0 ? 0 : q;
        if (!Double.isInfinite(variance[j])) {
          double s = v + variance[j];
          double dx = line.re()[j] - x;
          double dy = line.im()[j] - y;
          sum -= (dx * dx + dy * dy) / s + StrictMath.log(s / (level * level));
          double gain = v / s;
          x += gain * dx;
          y += gain * dy;
          v *= variance[j] / s;
        }
        re[j] = x;
        im[j] = y;
        p[j] = v;
      }
      return sum;
    }

    Smoothed smooth(double q) {
      for (int j = re.length - 2; j >= 0; j--) {
        double c = p[j] / (p[j] + q);
        re[j] += c * (re[j + 1] - re[j]);
        im[j] += c * (im[j + 1] - im[j]);
        p[j] += c * c * (p[j + 1] - p[j] - q);
      }
      return new Smoothed(re, im, p);
    }
  }
}
