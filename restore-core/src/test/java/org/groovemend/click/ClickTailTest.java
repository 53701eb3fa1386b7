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

  /**
   * Odds that are true to their word (see {@link #alarmsExpectedAreAlarmsFound}): the places of
   * sound above the start are counted rightly, however much damage stands among them.
   */
  @Test
  void damageAmongItIsNotCountedAsSound() {
    Random random = new Random(3);
    for (int damaged : new int[] {0, 2_000, 50_000}) {
      double[] q = new double[100_000 + damaged];
      int sound = 0;
      for (int i = 0; i < q.length; i++) {
        q[i] = (i < 100_000 ? -4.5 : 4.5) + 3 * random.nextGaussian();
        sound += i < 100_000 && q[i] > ClickTail.START ? 1 : 0;
      }
      ClickTail tail = ClickTail.fit(q, q.length, 10);
      assertThat(tail.ratePerMinute())
          .as(damaged + " damaged")
          .isEqualTo(sound / 10.0, within(30.0));
    }
  }

  /**
   * Undamaged sound whose log odds reach far: as many places stand above the threshold as were
   * asked for, within a factor of two, in a stretch ten thousand times as long as the fitted one.
   */
  @Test
  void alarmsAboveTheThresholdAreThoseWanted() {
    for (double wanted : new double[] {2, 8}) {
      double[] seen = music(200, 1.6, 4);
      double threshold =
          ClickTail.fit(seen, seen.length, 1).threshold(seen, seen.length, 1, wanted, -1);
      assertThat(ClickTail.fit(seen, seen.length, 1).alarms(threshold)).isLessThanOrEqualTo(wanted);
      double[] all = music(2_000_000, 1.6, 5);
      double perMinute = java.util.Arrays.stream(all).filter(v -> v > threshold).count() / 10_000.0;
      assertThat(perMinute).as(wanted + " wanted").isBetween(wanted / 2, wanted * 2);
    }
  }

  /** Where hardly anything is damage the tail asks for more than the few odds that were seen do. */
  @Test
  void theTailOfTheSideRaisesTheThreshold() {
    double[] narrow = music(100, 0.6, 6);
    double[] wide = music(100, 1.8, 6);
    double low = ClickTail.fit(narrow, 100, 1).threshold(narrow, 100, 1, 0.3, 1);
    double high = ClickTail.fit(wide, 100, 1).threshold(wide, 100, 1, 0.3, 1);
    assertThat(low).isEqualTo(1);
    assertThat(high).isGreaterThan(low + 1);
    assertThat(ClickTail.fit(wide, 100, 1).alarms(high)).isLessThanOrEqualTo(0.3);
    assertThat(ClickTail.fit(wide, 100, 1).alarms(high - 0.25)).isGreaterThan(0.3);
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
      double expected = ClickTail.fit(q, q.length, 1).expected(q, q.length, 1, 2);
      assertThat(expected).as(damaged + " damaged").isEqualTo(found, within(0.15 * found));
    }
  }

  @Test
  void moreAlarmsWantedLowerTheThreshold() {
    double[] q = music(200, 1.6, 7);
    double last = Double.POSITIVE_INFINITY;
    for (double wanted : new double[] {0.01, 0.1, 1, 10}) {
      double t = ClickTail.fit(q, q.length, 1).threshold(q, q.length, 1, wanted, -1);
      assertThat(t).isLessThan(last);
      last = t;
    }
  }

  @Test
  void nothingMetIsNothingExpected() {
    ClickTail tail = ClickTail.fit(new double[0], 0, 1);
    assertThat(tail.alarms(0)).isZero();
    assertThat(ClickTail.fit(new double[0], 0, 1).threshold(new double[0], 0, 1, 1, 1))
        .isEqualTo(1);
  }
}
