package org.groovemend.hum;

import java.util.Arrays;

/**
 * One line of one channel: measured complex amplitude (of a cosine, full scale 1.0) and power of
 * the neighbourhood in the same unit, at every knot.
 *
 * @param re real part
 * @param im imaginary part
 * @param floor expected squared amplitude where there is no line; infinite where nothing was
 *     measured
 * @param least least squared amplitude of any quarter of a second about the knot
 * @param most greatest squared amplitude of these
 */
record LineSeries(double[] re, double[] im, double[] floor, double[] least, double[] most) {
  /** Share of the strongest moment below which a neighbourhood counts as that, against zeros. */
  private static final double LEAST_SHARE = 1e-10;

  /**
   * Variance of a mean of many knots over that of as many independent ones: Hann windows half
   * overlapping have correlation 1/6 with each neighbour (P. Welch, 1967).
   */
  static final double SHARED = 4.0 / 3;

  static LineSeries empty(int knots) {
    double[] floor = new double[knots];
    Arrays.fill(floor, Double.POSITIVE_INFINITY);
    return new LineSeries(
        new double[knots], new double[knots], floor, new double[knots], new double[knots]);
  }

  int knots() {
    return re.length;
  }

  /** Median of the floors about a knot, which one break or stroke does not raise. */
  double floorAbout(int j) {
    double[] near = Arrays.copyOfRange(floor, Math.max(0, j - 4), Math.min(knots(), j + 5));
    Arrays.sort(near);
    return near[near.length / 2];
  }

  /** The greatest squared amplitude from the knot before to the one after. */
  double mostAbout(int j) {
    return Math.max(
        most[j], Math.max(most[Math.max(0, j - 1)], most[Math.min(knots() - 1, j + 1)]));
  }

  double power(int j) {
    return re[j] * re[j] + im[j] * im[j];
  }

  /**
   * The floor steadied by the median of three moments, and nowhere zero.
   *
   * @return null if the channel is silent throughout
   */
  LineSeries steadied() {
    double strongest = 0;
    for (int j = 0; j < knots(); j++) {
      strongest = Math.max(strongest, power(j));
      strongest = Double.isFinite(floor[j]) ? Math.max(strongest, floor[j]) : strongest;
    }
    if (strongest == 0) {
      return null;
    }
    double[] out = new double[knots()];
    for (int j = 0; j < out.length; j++) {
      double a = floor[Math.max(0, j - 1)];
      double b = floor[j];
      double c = floor[Math.min(out.length - 1, j + 1)];
      double middle = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
      out[j] = Double.isInfinite(b) ? b : Math.max(middle, LEAST_SHARE * strongest);
    }
    return new LineSeries(re, im, out, least, most);
  }

  /** As measured against a line that turns faster, by so many cycles a knot. */
  LineSeries turnedBack(double cycles) {
    if (cycles == 0) {
      return this;
    }
    double[] x = new double[knots()];
    double[] y = new double[knots()];
    for (int j = 0; j < x.length; j++) {
      double turns = cycles * j;
      double angle = 2 * Math.PI * (turns - Math.rint(turns));
      double c = StrictMath.cos(angle);
      double s = StrictMath.sin(angle);
      x[j] = re[j] * c + im[j] * s;
      y[j] = im[j] * c - re[j] * s;
    }
    return new LineSeries(x, y, floor, least, most);
  }
}
