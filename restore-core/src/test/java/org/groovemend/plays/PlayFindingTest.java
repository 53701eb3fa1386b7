package org.groovemend.plays;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class PlayFindingTest {

  /** Half a part in a thousand more than the search began with, and a sway of 0.1 % at 0.5 Hz. */
  private static final Alignment ALIGNMENT = alignment();

  private static Alignment alignment() {
    double[] at = new double[2_000];
    double[] delay = new double[at.length];
    double[] weight = new double[at.length];
    for (int i = 0; i < at.length; i++) {
      at[i] = 0.01 * i;
      delay[i] = 0.004 + 5e-4 * at[i] + 1e-3 / Math.PI * Math.sin(Math.PI * at[i]);
    }
    Arrays.fill(weight, 1e12);
    SmoothCurve curve = SmoothCurve.fit(0, 20, at, delay, weight, 8);
    return new Alignment(1.5, 1.002, curve, 1, 0, 20, false, 8, 100, 0.9, 0);
  }

  @Test
  void lineIsThatOfTheWholeMapAndSwayIsTheRest() {
    PlayFinding found = PlayFinding.of(ALIGNMENT, new double[] {1}, 44_100);
    assertThat(found.ratio()).isCloseTo(1.002 * 1.0005, within(2e-5));
    assertThat(found.offsetSeconds()).isCloseTo(1.5 + 1.002 * 0.004, within(2e-4));
    assertThat(found.swayPercent()).isCloseTo(0.1 / Math.sqrt(2), within(0.002));
  }

  /** By the formula of docs/reference/merge-record.md. */
  @Test
  void toldMapIsTheMap() {
    PlayFinding found = PlayFinding.of(ALIGNMENT, new double[] {1}, 44_100);
    List<Double> c = found.curve().coefficients();
    PlayMap map = ALIGNMENT.map(44_100, 44_100, 0);
    for (double t = 0.1; t < 19.9; t += 0.037) {
      double x = (t - found.curve().fromSeconds()) / found.curve().knotSeconds();
      int i = (int) x;
      double u = x - i;
      double v = 1 - u;
      double delay =
          (c.get(i) * v * v * v
                  + c.get(i + 1) * (3 * u * u * u - 6 * u * u + 4)
                  + c.get(i + 2) * (3 * v * v * v - 6 * v * v + 4)
                  + c.get(i + 3) * u * u * u)
              / 6;
      assertThat(found.offsetSeconds() + found.ratio() * (t + delay))
          .isCloseTo(map.playSeconds(t), within(1e-10));
    }
  }
}
