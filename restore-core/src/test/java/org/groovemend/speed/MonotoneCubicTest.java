package org.groovemend.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Against {@code scipy.interpolate.PchipInterpolator}, SciPy 1.10.1. */
class MonotoneCubicTest {

  @Test
  void equalsScipy() {
    MonotoneCubic curve =
        new MonotoneCubic(
            new double[] {0, 10, 25, 60, 180}, new double[] {0.01, 0.0, 0.003, 0.02, 0.015});
    double[] at = {0, 1, 5, 9.5, 12, 24, 30, 45, 59, 61, 100, 179, 180};
    double[] expected = {
      0.01,
      0.0085212,
      0.0031499999999999996,
      3.73500000000011e-05,
      8.374269005847953e-05,
      0.002727953216374269,
      0.004927727481970233,
      0.014295074420745745,
      0.019966610403559924,
      0.019999997106481482,
      0.019814814814814816,
      0.015123961226851852,
      0.015
    };
    for (int i = 0; i < at.length; i++) {
      assertThat(curve.value(at[i])).as("at %s", at[i]).isCloseTo(expected[i], within(1e-15));
    }
    MonotoneCubic three = new MonotoneCubic(new double[] {0, 1, 3}, new double[] {0, 2, 2.5});
    assertThat(three.value(0.5)).isCloseTo(1.262105855855856, within(1e-14));
    assertThat(three.value(1.5)).isCloseTo(2.2149493243243246, within(1e-14));
    assertThat(three.value(2.9)).isCloseTo(2.4986858108108105, within(1e-14));
  }

  @Test
  void isConstantOutsideAndStraightBetweenTwo() {
    MonotoneCubic two = new MonotoneCubic(new double[] {10, 20}, new double[] {1, 3});
    assertThat(two.value(0)).isEqualTo(1);
    assertThat(two.value(12.5)).isCloseTo(1.5, within(1e-15));
    assertThat(two.value(99)).isEqualTo(3);
    assertThat(new MonotoneCubic(new double[] {5}, new double[] {2}).value(7)).isEqualTo(2);
  }
}
