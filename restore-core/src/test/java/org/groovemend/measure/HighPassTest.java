package org.groovemend.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class HighPassTest {

  /** Computed with scipy 1.10: lfilter(*butter(2, corner, 'high', fs=rate), impulse). */
  @Test
  void impulseResponseIsThatOfScipy() {
    matches(
        new HighPass(100, 48_000),
        new int[] {0, 1, 2, 10, 100, 1000},
        new double[] {
          0.990786697940427,
          -0.018340938898602444,
          -0.018169630074177573,
          -0.016803512903339434,
          -0.004411810555048201,
          1.7435284327581268e-06
        });
    matches(
        new HighPass(2000, 44_100),
        new int[] {0, 1, 2, 10, 100},
        new double[] {
          0.8173653471988666,
          -0.3260532537283749,
          -0.25097769278232607,
          0.02358340028385292,
          -1.2240985646122869e-11
        });
  }

  private static void matches(HighPass filter, int[] at, double[] expected) {
    int k = 0;
    for (int i = 0; i <= at[at.length - 1]; i++) {
      double y = filter.next(i == 0 ? 1 : 0);
      if (i == at[k]) {
        // doubles through some hundred recursions
        assertThat(y).isCloseTo(expected[k++], within(1e-13));
      }
    }
    assertThat(k).isEqualTo(at.length);
  }

  @Test
  void cornerMustLieBelowHalfTheRate() {
    assertThatThrownBy(() -> new HighPass(4000, 8000))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("corner 4000.0 Hz is not between 0 and half of 8000 Hz");
  }
}
