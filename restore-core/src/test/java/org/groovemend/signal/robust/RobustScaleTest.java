package org.groovemend.signal.robust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RobustScaleTest {
  @Test
  void selectionIsSorting() {
    Random random = new Random(1);
    for (int n = 1; n < 60; n++) {
      double[] v = random.ints(n, 0, 12).asDoubleStream().toArray();
      double[] sorted = v.clone();
      Arrays.sort(sorted);
      for (int rank = 0; rank < n; rank++) {
        assertThat(Median.select(v.clone(), 0, n, rank)).isEqualTo(sorted[rank]);
      }
    }
  }

  /**
   * With a share of 10 % very large values the scale reads 1.1338 times too much (check values,
   * section 3).
   */
  @Test
  void tenPercentOfWildValuesHardlyMoveTheScale() {
    Random random = new Random(2);
    int n = 200_000;
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = i % 10 == 0 ? 1e6 * (i % 20 == 0 ? 1 : -1) : random.nextGaussian();
    }
    double[] work = new double[n];
    assertThat(RobustScale.mad(x, 0, n, work)).isCloseTo(1.1338, within(0.012));
    assertThat(RobustScale.aboutZero(x, 0, n, work)).isCloseTo(1.1338, within(0.012));
    for (int i = 0; i < n; i++) {
      x[i] = random.nextGaussian();
    }
    assertThat(RobustScale.mad(x, 0, n, work)).isCloseTo(1, within(0.012));
  }
}
