package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ClickTailTest {
  /** Weibull deviates by inversion of the distribution function, as any handbook has it. */
  private static double[] music(int count, double spread, long seed) {
    Random random = new Random(seed);
    double[] q = new double[count];
    for (int i = 0; i < count; i++) {
      q[i] =
          ClickTail.START
              + spread * Math.pow(-Math.log(1 - random.nextDouble()), 1 / ClickTail.SHAPE);
    }
    return q;
  }

  @Test
  void theSpreadOfUndamagedSoundIsFound() {
    for (double spread : new double[] {0.6, 1.2}) {
      ClickTail tail = ClickTail.fit(music(5000, spread, 1), 5000, 10);
      assertThat(tail.spread()).isEqualTo(spread, within(0.05 * spread));
      assertThat(tail.ratePerMinute()).isEqualTo(500, within(10.0));
    }
  }

  @Test
  void clicksAmongItDoNotMakeItWider() {
    double[] music = music(1000, 0.8, 2);
    double[] q = java.util.Arrays.copyOf(music, 2000);
    Random random = new Random(3);
    for (int i = 1000; i < 2000; i++) {
      q[i] = 6 + 2.5 * random.nextGaussian();
    }
    ClickTail tail = ClickTail.fit(q, q.length, 10);
    assertThat(tail.spread()).isEqualTo(0.8, within(0.2));
    assertThat(tail.ratePerMinute()).isEqualTo(100, within(15.0));
  }

  @Test
  void alarmsAtTheThresholdAreThoseWanted() {
    ClickTail tail = new ClickTail(1.2, 200);
    double threshold = tail.threshold(4);
    assertThat(threshold).isBetween(ClickTail.LOWEST - 1, ClickTail.HIGHEST);
    assertThat(tail.alarms(threshold)).isLessThanOrEqualTo(4.0001);
    double[] q = music(200_000, 1.2, 4);
    long above = java.util.Arrays.stream(q).filter(v -> v > threshold).count();
    assertThat(above * 200.0 / q.length).isEqualTo(tail.alarms(threshold), within(0.2));
  }

  /**
   * Log odds of a test between two normal laws of equal variance are normal, mean plus or minus
   * half their variance (signal detection theory, any handbook): what is counted above a threshold
   * must be what is expected.
   */
  @Test
  void alarmsExpectedAreAlarmsFound() {
    Random random = new Random(5);
    double variance = 9;
    for (int damaged : new int[] {0, 2_000, 50_000}) {
      int sound = 100_000;
      double[] q = new double[sound + damaged];
      long found = 0;
      for (int i = 0; i < q.length; i++) {
        q[i] = (i < sound ? -0.5 : 0.5) * variance + 3 * random.nextGaussian();
        if (i < sound && q[i] > 2) {
          found++;
        }
      }
      double expected = ClickTail.expected(q, q.length, 1, 2);
      assertThat(expected).as(damaged + " damaged").isEqualTo(found, within(0.15 * found));
    }
  }

  @Test
  void moreAlarmsWantedLowerTheThreshold() {
    ClickTail tail = new ClickTail(1.2, 200);
    double last = Double.POSITIVE_INFINITY;
    for (double wanted : new double[] {0.01, 0.1, 1, 10, 100}) {
      double t = tail.threshold(wanted);
      assertThat(t).isLessThan(last);
      last = t;
    }
  }

  @Test
  void nothingMetIsNothingExpected() {
    ClickTail tail = ClickTail.fit(new double[0], 0, 1);
    assertThat(tail.alarms(ClickTail.LOWEST)).isZero();
    assertThat(tail.threshold(1)).isEqualTo(ClickTail.LOWEST);
  }
}
