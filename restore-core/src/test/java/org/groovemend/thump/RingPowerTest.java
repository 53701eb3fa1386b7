package org.groovemend.thump;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.groovemend.signal.predict.PredictionFilter;
import org.junit.jupiter.api.Test;

/** The short way against the long one: filter both parts and solve the two normal equations. */
class RingPowerTest {
  private static final int ORDER = ThumpGeometry.ORDER;
  private static final int LENGTH = 400;
  private static final int TOTAL = LENGTH + 2 * ORDER;

  @Test
  void theDropIsThatOfTheFilteredRing() {
    Random random = new Random(1);
    double[] a = new double[ORDER + 1];
    a[0] = 1;
    for (int k = 1; k <= ORDER; k++) {
      a[k] = 0.2 * random.nextGaussian() / k;
    }
    double[] cos = new double[TOTAL];
    double[] sin = new double[TOTAL];
    double[] data = new double[TOTAL + ORDER];
    for (int n = ORDER; n < ORDER + LENGTH; n++) {
      double t = n - ORDER;
      cos[n] = Math.exp(-t / 60) * Math.cos(0.2 * t);
      sin[n] = Math.exp(-t / 60) * Math.sin(0.2 * t);
    }
    for (int n = ORDER; n < TOTAL; n++) {
      data[n] = random.nextGaussian();
    }

    double[] c = new double[TOTAL];
    double[] s = new double[TOTAL];
    PredictionFilter.residual(a, ORDER, cos, ORDER, TOTAL, c);
    PredictionFilter.residual(a, ORDER, sin, ORDER, TOTAL, s);
    double cc = PlaceData.dot(c, c);
    double cs = PlaceData.dot(c, s);
    double ss = PlaceData.dot(s, s);
    double p = PlaceData.dot(c, 0, data, 0, TOTAL);
    double q = PlaceData.dot(s, 0, data, 0, TOTAL);
    double direct = (ss * p * p - 2 * cs * p * q + cc * q * q) / (cc * ss - cs * cs);

    double[] matched = new double[TOTAL];
    PredictionFilter.matched(a, ORDER, data, 0, TOTAL, matched);
    double[] filter = new double[ORDER + 1];
    PredictionFilter.coefficientCorrelation(a, ORDER, filter);
    double[] h = new double[3];
    assertThat(new RingPower(cos, sin, TOTAL).weights(filter, h)).isTrue();
    double p1 = PlaceData.dot(cos, matched);
    double q1 = PlaceData.dot(sin, matched);
    assertThat(h[0] * p1 * p1 + h[1] * p1 * q1 + h[2] * q1 * q1)
        .isCloseTo(direct, within(1e-9 * direct));
  }

  /** The negative twin: two parts that are one cannot be told apart. */
  @Test
  void twoLikePartsAreRefused() {
    double[] cos = new double[TOTAL];
    cos[ORDER] = 1;
    double[] filter = new double[ORDER + 1];
    filter[0] = 1;
    assertThat(new RingPower(cos, cos, TOTAL).weights(filter, new double[3])).isFalse();
  }
}
