package org.groovemend.signal.special;

/**
 * The regularised lower incomplete gamma function P(a, x) and its inverse: the gamma distribution
 * of scale 1.
 *
 * <p>Series below a + 1, continued fraction (modified Lentz) above: Abramowitz and Stegun,
 * "Handbook of Mathematical Functions", 1964, 6.5.29 and 6.5.31. Gamma function: Stirling's series,
 * 6.1.41, after shifting the argument above 10.
 */
public final class IncompleteGamma {
  private static final double HALF_LOG_TWO_PI = 0.91893853320467274178;
  private static final double[] STIRLING = {
    1.0 / 12, -1.0 / 360, 1.0 / 1260, -1.0 / 1680, 1.0 / 1188, -691.0 / 360360
  };

  private IncompleteGamma() {}

  /**
   * P(a, x), 0 to 1.
   *
   * @param a above 0
   * @param x not negative
   */
  public static double lower(double a, double x) {
    if (!(a > 0) || !(x >= 0)) {
      throw new IllegalArgumentException(
          "P is defined for a above 0 and x from 0 on: " + a + ", " + x);
    }
    if (x == 0) {
      return 0;
    }
    double front = StrictMath.exp(a * StrictMath.log(x) - x - logGamma(a));
    return x < a + 1 ? front * series(a, x) : 1 - front * fraction(a, x);
  }

  private static double series(double a, double x) {
    double term = 1 / a;
    double sum = term;
    for (int n = 1; n < 100_000 && term > 1e-17 * sum; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return sum;
  }

  private static double fraction(double a, double x) {
    double b = x + 1 - a;
    double c = 1e300;
    double d = 1 / b;
    double h = d;
    for (int i = 1; i < 100_000; i++) {
      double an = -i * (i - a);
      b += 2;
      d = 1 / (an * d + b);
      c = b + an / c;
      h *= c * d;
      if (Math.abs(c * d - 1) < 1e-16) {
        break;
      }
    }
    return h;
  }

  /**
   * The x at which P(a, x) has a value, by bisection to the last bits.
   *
   * @param share above 0, below 1
   */
  public static double quantile(double a, double share) {
    if (!(share > 0 && share < 1)) {
      throw new IllegalArgumentException("share " + share + " is not between 0 and 1");
    }
    double low = 0;
    double high = a + 1;
    while (lower(a, high) < share) {
      high *= 2;
    }
    for (int i = 0; i < 200 && high - low > 1e-15 * high; i++) {
      double middle = 0.5 * (low + high);
      if (lower(a, middle) < share) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return 0.5 * (low + high);
  }

  /** Natural logarithm of the gamma function, a above 0. */
  static double logGamma(double a) {
    double shift = 0;
    double x = a;
    while (x < 10) {
      shift += StrictMath.log(x);
      x += 1;
    }
    double sum = 0;
    double power = x;
    for (double coefficient : STIRLING) {
      sum += coefficient / power;
      power *= x * x;
    }
    return (x - 0.5) * StrictMath.log(x) - x + HALF_LOG_TWO_PI + sum - shift;
  }
}
