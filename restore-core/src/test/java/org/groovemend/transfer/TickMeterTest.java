package org.groovemend.transfer;

import static org.assertj.core.api.Assertions.assertThat;

import org.assertj.core.api.Assertions;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.RotationSearch;
import org.junit.jupiter.api.Test;

/** Ticks put where the test knows them. */
class TickMeterTest {

  private static double[][] quiet(int seconds) {
    double[][] x = new double[2][seconds * WornSide.RATE];
    java.util.Random random = new java.util.Random(9);
    for (int i = 0; i < x[0].length; i++) {
      double tone = 0.1 * Math.sin(2 * Math.PI * 440.0 * i / WornSide.RATE);
      x[0][i] = tone + 0.001 * random.nextGaussian();
      x[1][i] = tone + 0.001 * random.nextGaussian();
    }
    return x;
  }

  @Test
  void ticksAreCountedByWallAndSize() {
    double[][] x = quiet(60);
    for (int k = 0; k < 30; k++) {
      int at = 40_000 + 190_000 * k;
      // second difference of a pulse of one sample: twice its height
      x[k % 3 == 0 ? 0 : 1][at] += k % 2 == 0 ? 0.2 : 0.045;
    }
    TickMeter meter = new TickMeter(WornSide.RATE, 2);
    WornSide.feed(meter, null, x, 65_536);
    Ticks found = meter.finish();
    assertThat(found.bySize().get(0)).containsExactly(0L, 5L, 5L);
    assertThat(found.bySize().get(1)).containsExactly(0L, 10L, 10L);
    assertThat(found.perMinute()).isCloseTo(30, Assertions.within(0.01));
    TickMeter odd = new TickMeter(WornSide.RATE, 2);
    WornSide.feed(odd, null, x, 977);
    assertThat(odd.finish()).isEqualTo(found);
  }

  @Test
  void noiseAndTonesHaveNone() {
    TickMeter meter = new TickMeter(WornSide.RATE, 2);
    WornSide.feed(meter, null, quiet(60), 65_536);
    assertThat(meter.finish().perMinute()).isLessThan(1);
  }

  @Test
  void theTurntableIsToldFromTheTicks() {
    TickMeter meter = new TickMeter(WornSide.RATE, 2);
    WornSide.feed(meter, WornSide.words(24), 24);
    meter.finish();
    RotationFinding found = RotationSearch.of(meter.gatherer());
    assertThat(found.found()).isTrue();
    assertThat(found.rpm()).isCloseTo(WornSide.rpm(), Assertions.withinPercentage(0.5));
  }
}
