package org.groovemend.hum;

/**
 * How fast the lines of a family turn together, over the whole side, against a track that is a
 * little off: the frequency at which the sum of their steps from knot to knot is largest, as the
 * periodogram finds it for one line (D. Rife, R. Boorstyn, IEEE Trans. Inf. Theory 20(5), 1974).
 * Steps count by their direction only, so that moments under a note beside a line do not lead
 * astray, as they do where phases are unwrapped.
 */
final class CommonTurning {
  /** Cycles of the fundamental a knot: 0.004 Hz. */
  private static final double STEP = 0.002;

  /** Largest turning looked for, steps: 0.2 Hz. */
  private static final int MOST = 50;

  private CommonTurning() {}

  /**
   * @param series by channel and line
   * @param evidence of the same; null where there is none
   * @return cycles of the fundamental a knot; of equals the smallest
   */
  static double of(LineSeries[][] series, LineEvidence[][] evidence) {
    int lines = series[0].length;
    double[] re = new double[lines];
    double[] im = new double[lines];
    for (int c = 0; c < series.length; c++) {
      for (int k = 0; k < lines; k++) {
        if (evidence[c][k] != null) {
          add(series[c][k], evidence[c][k], k, re, im);
        }
      }
    }
    double best = 0;
    double most = together(re, im, 0);
    for (int s = 1; s <= MOST; s++) {
      for (int sign = -1; sign <= 1; sign += 2) {
        double sum = together(re, im, sign * s * STEP);
        if (sum > most) {
          most = sum;
          best = sign * s * STEP;
        }
      }
    }
    return best;
  }

  private static void add(LineSeries line, LineEvidence e, int k, double[] re, double[] im) {
    // by channel first: two channels swapped give the same bits
    double sumRe = 0;
    double sumIm = 0;
    double square = e.level() * e.level();
    for (int j = 1; j < line.knots(); j++) {
      double size = Math.sqrt(line.power(j) * line.power(j - 1));
      if (!(size > 0) || Double.isInfinite(line.floor()[j])) {
        continue;
      }
      // a line that drowns has no direction: noise of two knots and two quadratures
      double clear = square / (square + 4 * line.floor()[j]);
      double weight = clear * Math.min(e.trust()[j], e.trust()[j - 1]) / size;
      sumRe += weight * (line.re()[j] * line.re()[j - 1] + line.im()[j] * line.im()[j - 1]);
      sumIm += weight * (line.im()[j] * line.re()[j - 1] - line.re()[j] * line.im()[j - 1]);
    }
    re[k] += sumRe;
    im[k] += sumIm;
  }

  private static double together(double[] re, double[] im, double turning) {
    double sum = 0;
    for (int k = 0; k < re.length; k++) {
      double angle = 2 * Math.PI * (k + 1) * turning;
      sum += re[k] * StrictMath.cos(angle) + im[k] * StrictMath.sin(angle);
    }
    return sum;
  }
}
