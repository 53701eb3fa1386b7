package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class HarmonicFitTest {
  private static final double NONE = 1e9;

  private static double turns(int i) {
    return i / 23.7;
  }

  private static double swing(int i) {
    double a = 2 * Math.PI * turns(i);
    return 0.7 * Math.cos(a) - 0.3 * Math.sin(a) + 0.2 * Math.cos(2 * a) + 0.1 * Math.sin(2 * a);
  }

  @Test
  void whatWasPutInComesOutBesideALine() {
    double[] values = new double[400];
    for (int i = 0; i < values.length; i++) {
      values[i] = 3 - 0.01 * i + swing(i);
    }
    for (HarmonicFit fit :
        new HarmonicFit[] {
          HarmonicFit.of(values, 20, 390, NONE, HarmonicFitTest::turns),
          HarmonicFit.ofTheLower(values, 20, 390, NONE, HarmonicFitTest::turns)
        }) {
      double[] expected = {0.7, -0.3, 0.2, 0.1};
      for (int k = 0; k < 4; k++) {
        assertEquals(expected[k], fit.harmonics()[k], 1e-9);
      }
      assertEquals(0, fit.rest(), 1e-9);
    }
  }

  /** The squares that each smaller model leaves, against residuals summed one by one. */
  @Test
  void squaresAreThoseOfTheResiduals() {
    Random random = new Random(1);
    double[] values = new double[237]; // ten turns: the sines stand at right angles to each other
    double squares = 0;
    for (int i = 0; i < values.length; i++) {
      values[i] = random.nextGaussian() + swing(i);
    }
    HarmonicFit fit = HarmonicFit.of(values, 0, values.length, NONE, HarmonicFitTest::turns);
    double[] h = fit.harmonics();
    double line = 0;
    double slope = 0;
    double xx = 0;
    double[] rest = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      double a = 2 * Math.PI * turns(i);
      rest[i] =
          values[i]
              - h[0] * Math.cos(a)
              - h[1] * Math.sin(a)
              - h[2] * Math.cos(2 * a)
              - h[3] * Math.sin(2 * a);
      line += rest[i] / values.length;
      double x = i - 118;
      slope += x * rest[i];
      xx += x * x;
    }
    for (int i = 0; i < values.length; i++) {
      squares += Math.pow(rest[i] - line - slope / xx * (i - 118), 2);
    }
    assertEquals(squares, fit.rest(), 1e-9 * squares);
    assertTrue(fit.rest() < fit.restOfOnce() && fit.restOfOnce() < fit.total());
  }

  @Test
  void whatLiesAboveHardlyCountsForTheLower() {
    double[] values = new double[400];
    Random random = new Random(2);
    for (int i = 0; i < values.length; i++) {
      double music = random.nextInt(4) == 0 ? 2 * random.nextDouble() : -9; // or none
      values[i] = Math.max(swing(i), music);
    }
    double plain =
        Math.hypot(
            HarmonicFit.of(values, 0, 400, NONE, HarmonicFitTest::turns).harmonics()[0] - 0.7,
            HarmonicFit.of(values, 0, 400, NONE, HarmonicFitTest::turns).harmonics()[1] + 0.3);
    double lower =
        Math.hypot(
            HarmonicFit.ofTheLower(values, 0, 400, NONE, HarmonicFitTest::turns).harmonics()[0]
                - 0.7,
            HarmonicFit.ofTheLower(values, 0, 400, NONE, HarmonicFitTest::turns).harmonics()[1]
                + 0.3);
    assertTrue(lower < 0.5 * plain, lower + " against " + plain);
  }

  @Test
  void tooFewValuesBelowTheLimitAreNoFit() {
    double[] values = new double[400];
    java.util.Arrays.fill(values, 5);
    assertNull(HarmonicFit.of(values, 0, 400, 5, HarmonicFitTest::turns));
    assertNull(HarmonicFit.ofTheLower(values, 0, 400, 5, HarmonicFitTest::turns));
  }
}
