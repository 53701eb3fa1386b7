package org.groovemend.chain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class DitherTest {

  private static final int N = 1_000_000;

  /**
   * Sum of two independent uniform numbers of one step: mean 0, variance 2 * 1/12, within one step.
   */
  @Test
  void isTriangular() {
    Dither dither = new Dither(42, 0);
    double sum = 0;
    double squares = 0;
    int inner = 0;
    for (long i = 0; i < N; i++) {
      double d = dither.at(i);
      assertThat(Math.abs(d)).isLessThan(1);
      sum += d;
      squares += d * d;
      if (Math.abs(d) < 0.5) {
        inner++;
      }
    }
    // four standard errors
    assertThat(sum / N).isCloseTo(0, within(4 * Math.sqrt(1.0 / 6 / N)));
    assertThat(squares / N).isCloseTo(1.0 / 6, within(4 * Math.sqrt((1.0 / 15 - 1.0 / 36) / N)));
    // P(|d| < 1/2) of the triangle is 3/4
    assertThat(inner / (double) N).isCloseTo(0.75, within(4 * Math.sqrt(0.75 * 0.25 / N)));
  }

  @Test
  void neighboursAndChannelsAreUncorrelated() {
    Dither left = new Dither(42, 0);
    Dither right = new Dither(42, 1);
    double lag = 0;
    double across = 0;
    for (long i = 0; i < N; i++) {
      lag += left.at(i) * left.at(i + 1);
      across += left.at(i) * right.at(i);
    }
    double bound = 4.0 / 6 / Math.sqrt(N);
    assertThat(lag / N).isCloseTo(0, within(bound));
    assertThat(across / N).isCloseTo(0, within(bound));
  }
}
