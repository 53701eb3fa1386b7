package org.groovemend.signal.special;

/**
 * The exponential integral E1(x) = integral from x to infinity of exp(-t)/t dt, for x above 0.
 *
 * <p>Power series up to 1, continued fraction (modified Lentz) above: Abramowitz and Stegun,
 * "Handbook of Mathematical Functions", 1964, 5.1.11 and 5.1.22.
 */
public final class ExponentialIntegral {

  /** Euler's constant. */
  public static final double GAMMA = 0.57721566490153286061;

  private ExponentialIntegral() {}

  /**
   * The value of E1 at x.
   *
   * @param x above 0; positive infinity gives 0
   * @throws IllegalArgumentException if x is 0, negative or not a number
   */
  public static double e1(double x) {
    if (!(x > 0)) {
      throw new IllegalArgumentException("E1 is defined here for arguments above 0, not " + x);
    }
    if (x > 740) {
      return 0.0; // below the smallest double
    }
    return x <= 1 ? -GAMMA - StrictMath.log(x) + ein(x) : StrictMath.exp(-x) * fraction(x);
  }

  /** Ein(x) = sum over k of (-1)^(k+1) x^k / (k k!), so that E1(x) = -gamma - ln x + Ein(x). */
  static double ein(double x) {
    double sum = 0;
    double power = 1;
    for (int k = 1; k < 40; k++) {
      power *= -x / k;
      double add = -power / k;
      sum += add;
      if (Math.abs(add) < 1e-18 * Math.abs(sum)) {
        break;
      }
    }
    return sum;
  }

  /** exp(x) E1(x) for x of at least 1. */
  private static double fraction(double x) {
    double b = x + 1;
    double c = 1e300;
    double d = 1 / b;
    double h = d;
    for (int i = 1; i < 300; i++) {
      double a = -(double) i * i;
      b += 2;
      d = 1 / (a * d + b);
      c = b + a / c;
      double factor = c * d;
      h *= factor;
      if (Math.abs(factor - 1) < 1e-16) {
        break;
      }
    }
    return h;
  }

  /** exp(x) E1(x), which does not underflow for large x. */
  public static double scaledE1(double x) {
    return x <= 1 ? StrictMath.exp(x) * e1(x) : fraction(x);
  }
}
