package org.groovemend.hum;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** What is subtracted of a line that is followed at amplitude 1. */
class HumModelTest {
  private static HumModel.Line subtracted(double... measured) {
    int n = measured.length;
    double[] level = new double[n];
    double[] variance = new double[n];
    double[] floor = new double[n];
    Arrays.fill(level, 1);
    Arrays.fill(variance, 0.01);
    Arrays.fill(floor, 0.01);
    LineSeries line = new LineSeries(measured, new double[n], floor, new double[n], new double[n]);
    return HumModel.Line.cautious(0, 1, new Smoothed(level, new double[n], variance), line);
  }

  @Test
  void lessThanTheEstimateByItsStandardError() {
    for (double x : subtracted(1, 1.05, 0.97).re()) {
      assertThat(x).isCloseTo(0.9, within(1e-12));
    }
  }

  /** A note in opposite phase cancels hum for a moment; the hum is there all the same. */
  @Test
  void oneMomentWithoutTheLineIsMusicThatCancelsIt() {
    assertThat(subtracted(1, 1, 0.05, 1, 1).re()).doesNotContain(0.0);
  }

  @Test
  void whereTheLineHasEndedNothingIsSubtracted() {
    double[] re = subtracted(1, 1, 0.05, 0.1, -0.05).re();
    assertThat(re[1]).isPositive();
    assertThat(re[2]).isZero();
    assertThat(re[3]).isZero();
    assertThat(re[4]).isZero();
  }
}
