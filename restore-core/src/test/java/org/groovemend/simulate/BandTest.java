package org.groovemend.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.junit.jupiter.api.Test;

class BandTest {

  private static final int RATE = 48_000;

  /** Frequency of the strongest line near {@code hz}: parabola through the log spectrum. */
  private static double strongestNear(double[] x, double hz) {
    int n = 1 << 15;
    double[] a = Arrays.copyOf(x, n);
    for (int i = 0; i < n; i++) {
      a[i] *= 0.5 - 0.5 * Math.cos(2 * Math.PI * i / n);
    }
    new RealFft(n).forward(a);
    int low = (int) (hz * 0.94 * n / RATE);
    int best = low;
    for (int k = low; k < hz * 1.06 * n / RATE; k++) {
      best = level(a, k) > level(a, best) ? k : best;
    }
    double l = level(a, best - 1);
    double m = level(a, best);
    double r = level(a, best + 1);
    return (best + 0.5 * (l - r) / (l - 2 * m + r)) * RATE / n;
  }

  private static double level(double[] a, int k) {
    return Math.log(Math.hypot(a[2 * k], a[2 * k + 1]));
  }

  private static double cents(double a, double b) {
    return 1200 * Math.log(a / b) / Math.log(2);
  }

  @Test
  void equalTemperamentOnA440() {
    assertThat(Tune.hz(69)).isEqualTo(440);
    assertThat(Tune.hz(60)).isCloseTo(261.6256, within(5e-5)); // printed value of middle C
    assertThat(Tune.key("A4")).isEqualTo(69);
    assertThat(Tune.key("Db5")).isEqualTo(Tune.key("C#5")).isEqualTo(73);
    assertThat(Tune.key("-")).isEqualTo(-1);
  }

  @Test
  void instrumentsPlayInTune() {
    for (int key : new int[] {45, 57, 65, 71}) {
      double[] x = new double[RATE];
      new PluckedString(6, 0.3, 0.13, 0).add(x, 0, RATE, Tune.hz(key), 0.9, 1, new Chance(4));
      assertThat(cents(strongestNear(x, Tune.hz(key)), Tune.hz(key))).isCloseTo(0, within(4.0));
    }
    for (Wind wind : new Wind[] {Wind.REED, Wind.BRASS}) {
      double[] x = new double[RATE];
      wind.add(x, 0, RATE, Tune.hz(72), 0.9, 1, new Chance(4));
      assertThat(cents(strongestNear(x, Tune.hz(72)), Tune.hz(72))).isCloseTo(0, within(4.0));
    }
  }

  @Test
  void partsFillTheSixteenBars() {
    int thirds = Tune.BARS * Tune.BEATS_PER_BAR * 3;
    for (String part : new String[] {Tune.REED, Tune.BRASS}) {
      int sum = 0;
      for (String token : part.trim().split("\\s+")) {
        sum += Integer.parseInt(token.substring(token.indexOf('/') + 1));
      }
      // the last note is short by one third
      assertThat(sum).isEqualTo(thirds - 1);
    }
    assertThat(Tune.CHORDS).hasSize(2 * Tune.BARS);
  }

  @Test
  void bandPlaysFiniteSoundThatDiesAway() {
    double seconds = Tune.seconds() + 0.7;
    double[] x = Band.play(32_000, seconds, new Chance(1));
    double peak = 0;
    for (double y : x) {
      peak = Math.max(peak, Math.abs(y));
    }
    assertThat(peak).isFinite().isGreaterThan(0.3);
    assertThat(Math.abs(x[x.length - 1])).isLessThan(0.02 * peak);
  }
}
