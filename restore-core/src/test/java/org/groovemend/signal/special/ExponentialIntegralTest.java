package org.groovemend.signal.special;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class ExponentialIntegralTest {

  /**
   * Trapezoidal rule for the defining integral, with t = x + exp(u): an independent way to the same
   * number.
   */
  private static double byQuadrature(double x) {
    double h = 0.002;
    double sum = 0;
    for (double u = -45; u < 7; u += h) {
      double w = StrictMath.exp(u);
      sum += StrictMath.exp(-x - w) / (x + w) * w;
    }
    return sum * h;
  }

  @Test
  void agreesWithTheDefiningIntegral() {
    for (double x : new double[] {1e-4, 0.01, 0.3, 0.999, 1.0, 1.001, 2, 5, 17, 60}) {
      assertEquals(1, ExponentialIntegral.e1(x) / byQuadrature(x), 1e-11, "x = " + x);
    }
  }

  @Test
  void printedValueOfTheHandbookAtOne() {
    // Abramowitz and Stegun, table 5.1: E1(1) = 0.219383934 (from memory, nine decimals)
    assertEquals(0.219383934, ExponentialIntegral.e1(1), 0.5e-9);
  }

  @Test
  void goesToItsLimits() {
    assertEquals(
        -ExponentialIntegral.GAMMA - StrictMath.log(1e-12), ExponentialIntegral.e1(1e-12), 1e-11);
    assertEquals(1, 1e6 * ExponentialIntegral.scaledE1(1e6), 2e-6);
    assertEquals(0, ExponentialIntegral.e1(Double.POSITIVE_INFINITY));
    assertTrue(ExponentialIntegral.e1(700) > 0);
  }

  @Test
  void refusesWhatIsNotAboveZero() {
    assertThrows(IllegalArgumentException.class, () -> ExponentialIntegral.e1(0));
    assertThrows(IllegalArgumentException.class, () -> ExponentialIntegral.e1(-1));
    assertThrows(IllegalArgumentException.class, () -> ExponentialIntegral.e1(Double.NaN));
  }
}
