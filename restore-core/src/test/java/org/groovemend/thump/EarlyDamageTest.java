package org.groovemend.thump;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class EarlyDamageTest {
  private static final int RATE = 48_000;

  private static double[] music() {
    Random random = new Random(1);
    double[] x = new double[4000];
    for (int n = 0; n < x.length; n++) {
      x[n] = 0.2 * Math.sin(0.05 * n) + 0.001 * random.nextGaussian();
    }
    return x;
  }

  @Test
  void aTickBeforeTheFrontIsSeen() {
    double[] x = music();
    x[2960] += 0.02;
    assertThat(new EarlyDamage(RATE).seen(x, 3000)).isTrue();
  }

  @Test
  void musicAloneAndATickFarBeforeOrAfterAreNot() {
    double[] x = music();
    EarlyDamage early = new EarlyDamage(RATE);
    assertThat(early.seen(x, 3000)).isFalse();
    x[500] += 0.02;
    x[3000] += 0.02;
    assertThat(early.seen(x, 3000)).isFalse();
  }

  @Test
  void atTheStartOfASideThereIsNoSaying() {
    assertThat(new EarlyDamage(RATE).seen(music(), 100)).isTrue();
  }
}
