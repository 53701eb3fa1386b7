package org.groovemend.plays;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class UnsharedBurstsTest {
  private static final int RATE = 48_000;
  private static final int COUNT = 20_000;
  private static final int STRETCH = 2048;

  private final double[] x = new double[COUNT];
  private final double[] y = new double[COUNT];

  /** One music, the second louder and turned, and the groove's noise of each play. */
  private void plays() {
    Random random = new Random(3);
    double music = 0;
    for (int i = 0; i < COUNT; i++) {
      music = 0.95 * music + 0.05 * random.nextGaussian();
      x[i] = music + 1e-3 * random.nextGaussian();
      y[i] = -1.3 * music + 1e-3 * random.nextGaussian();
    }
  }

  @Test
  void playsWithoutClicksStayAsTheyAre() {
    plays();
    double[] before = x.clone();
    double[] other = y.clone();
    new UnsharedBursts(RATE, COUNT, STRETCH).take(x, y, COUNT);
    assertThat(Arrays.equals(x, before)).isTrue();
    assertThat(Arrays.equals(y, other)).isTrue();
  }

  @Test
  void aClickOfOnePlayIsTakenOutOfBothAndSharedOnesStay() {
    plays();
    int own = 5000;
    int shared = 12_000;
    for (int i = 0; i < 10; i++) {
      double click = 0.2 * (i % 2 == 0 ? 1 : -1);
      y[own + i] += click;
      x[shared + i] += click;
      y[shared + i] -= 1.3 * click;
    }
    double[] before = x.clone();
    double[] other = y.clone();
    new UnsharedBursts(RATE, COUNT, STRETCH).take(x, y, COUNT);
    for (int i = 0; i < 10; i++) {
      assertThat(x[own + i]).isZero();
      assertThat(y[own + i]).isZero();
    }
    // 0.4 ms of nothing and 0.7 ms of slope on either side
    int reach = (int) (1.2e-3 * RATE);
    for (int i = 0; i < COUNT; i++) {
      if (i < own - reach || i > own + 10 + reach) {
        assertThat(x[i]).isEqualTo(before[i]);
        assertThat(y[i]).isEqualTo(other[i]);
      } else {
        // one window for both
        assertThat(x[i] * other[i]).isEqualTo(y[i] * before[i], within(x[i] * other[i]));
      }
    }
  }

  private static org.assertj.core.data.Offset<Double> within(double value) {
    return org.assertj.core.api.Assertions.within(1e-12 + 1e-9 * Math.abs(value));
  }

  @Test
  void playsThatAreUnlikeAllAlongAreLeftToOthers() {
    plays();
    Random random = new Random(8);
    for (int i = 0; i < COUNT; i++) {
      y[i] += random.nextInt(4) == 0 ? (random.nextBoolean() ? 0.1 : -0.1) : 0;
    }
    double[] before = x.clone();
    new UnsharedBursts(RATE, COUNT, STRETCH).take(x, y, COUNT);
    assertThat(Arrays.equals(x, before)).isTrue();
  }
}
