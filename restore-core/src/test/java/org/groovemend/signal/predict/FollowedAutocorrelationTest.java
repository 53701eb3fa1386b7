package org.groovemend.signal.predict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class FollowedAutocorrelationTest {
  private static final int LENGTH = 700;
  private static final int LAGS = 130;

  private final Random random = new Random(4);
  private final double[] window = random.doubles(LENGTH, 0.1, 1).toArray();
  private final double[] x = random.doubles(LENGTH + 3, -1, 1).toArray();
  private final double[] r = new double[LAGS + 1];
  private final double[] anew = new double[LAGS + 1];
  private final FollowedAutocorrelation followed = new FollowedAutocorrelation(LENGTH, LAGS);

  @Test
  void changesAreFollowedAsIfSummedAnew() {
    followed.compute(x, 3, LENGTH, window, r);
    for (int round = 0; round < 5; round++) {
      int from = random.nextInt(LENGTH - 40);
      for (int n = from; n < from + 40; n++) {
        x[3 + n] = random.nextGaussian();
      }
      followed.follow(x, 3, LENGTH, window, from, from + 40, r);
      requireAsAnew(1e-12);
    }
  }

  @Test
  void changesOutsideTheStatedRangeAreNotSeen() {
    followed.compute(x, 3, LENGTH, window, r);
    double before = r[0];
    x[100] += 5;
    followed.follow(x, 3, LENGTH, window, 200, 300, r);
    assertThat(r[0]).isEqualTo(before);
  }

  @Test
  void littleIsLeftOfAGreatBlowWhenItIsTakenOut() {
    double quiet = x[350];
    x[350] = 1e9;
    followed.compute(x, 3, LENGTH, window, r);
    x[350] = quiet;
    followed.follow(x, 3, LENGTH, window, 347, 348, r);
    requireAsAnew(1e-12);
  }

  private void requireAsAnew(double share) {
    new Autocorrelation(LENGTH, LAGS).compute(x, 3, LENGTH, window, anew);
    for (int k = 0; k <= LAGS; k++) {
      assertThat(r[k]).isCloseTo(anew[k], within(share * anew[0]));
    }
  }
}
