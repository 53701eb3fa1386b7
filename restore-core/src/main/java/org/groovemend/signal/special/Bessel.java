package org.groovemend.signal.special;

/** The modified Bessel function of the first kind, order zero, and its logarithm. */
public final class Bessel {
  private static final double SERIES_TO = 30;

  private Bessel() {}

  /**
   * Power series (Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, 9.6.12) to 30,
   * asymptotic series (9.7.1) above: relative error of I0 below 1e-10.
   *
   * @param x 0 or more
   */
  public static double logI0(double x) {
    if (x <= SERIES_TO) {
      return StrictMath.log(seriesI0(x));
    }
    double term = 1;
    double sum = 1;
    for (int k = 1; k <= 10; k++) {
      double odd = 2 * k - 1;
      term *= odd * odd / (8 * k * x);
      sum += term;
    }
    return x - 0.5 * StrictMath.log(2 * Math.PI * x) + StrictMath.log(sum);
  }

  /**
   * I0 itself, by its power series.
   *
   * @param x 0 to 30
   */
  public static double seriesI0(double x) {
    double term = 1;
    double sum = 1;
    double quarter = x * x / 4;
    for (int k = 1; term > 1e-17 * sum; k++) {
      term *= quarter / ((double) k * k);
      sum += term;
    }
    return sum;
  }
}
