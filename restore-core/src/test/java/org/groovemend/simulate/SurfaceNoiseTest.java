package org.groovemend.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.groovemend.signal.fft.RealFft;
import org.junit.jupiter.api.Test;

class SurfaceNoiseTest {

  private static final int RATE = 48_000;
  private static final Transfer TRANSFER = new Transfer(RATE, Pickup.ordinary(), 0.4);
  private static final int TURNS = 16;

  private static Turntable turntable(double radius) {
    return new Turntable(60, radius, 0);
  }

  private static double[][] noise(double radius, double correlation, int frames) {
    SurfaceNoise.Level level =
        new SurfaceNoise.Level(-40, -37, correlation, turntable(0.1).grooveSpeed(0));
    double[][] out = new double[2][frames];
    new SurfaceNoise(TRANSFER, turntable(radius), level, 7).addTo(out, 0, frames);
    return out;
  }

  private static double power(double[] x) {
    double sum = 0;
    for (double y : x) {
      sum += y * y;
    }
    return sum / x.length;
  }

  private static double correlation(double[][] x) {
    double sum = 0;
    for (int i = 0; i < x[0].length; i++) {
      sum += x[0][i] * x[1][i];
    }
    return sum / x[0].length / Math.sqrt(power(x[0]) * power(x[1]));
  }

  /** Mean power in a frequency range, by 4096-point periodograms (rectangular: levels only). */
  private static double bandPower(double[] x, double lowHz, double highHz) {
    int n = 4096;
    RealFft fft = new RealFft(n);
    double sum = 0;
    int blocks = x.length / n;
    for (int b = 0; b < blocks; b++) {
      double[] a = java.util.Arrays.copyOfRange(x, b * n, (b + 1) * n);
      for (int i = 0; i < n; i++) {
        a[i] *= 0.5 - 0.5 * Math.cos(2 * Math.PI * i / n);
      }
      fft.forward(a);
      for (int k = (int) Math.ceil(lowHz * n / RATE); k < highHz * n / RATE; k++) {
        sum += a[2 * k] * a[2 * k] + a[2 * k + 1] * a[2 * k + 1];
      }
    }
    return sum / blocks;
  }

  @Test
  void wallsHaveTheStatedLevels() {
    double[][] x = noise(0.1, 0.35, TURNS * RATE);
    // 16 s of noise, equivalent bandwidth above 400 Hz: standard error of the power below
    // sqrt(1/(400*16)) = 1.25 % = 0.055 dB; four of them
    assertThat(10 * Math.log10(power(x[0]))).isCloseTo(-40, within(0.22));
    assertThat(10 * Math.log10(power(x[1]))).isCloseTo(-37, within(0.22));
  }

  @Test
  void wallsCorrelateAsStated() {
    // modulation of the walls differs, which lowers the coefficient by at most the modulation power
    assertThat(correlation(noise(0.1, 0.35, TURNS * RATE))).isCloseTo(0.35, within(0.03));
    assertThat(correlation(noise(0.1, 0, TURNS * RATE))).isCloseTo(0, within(0.03));
    assertThat(correlation(noise(0.1, 1, TURNS * RATE))).isBetween(0.95, 1.0);
  }

  @Test
  void halfTheGrooveSpeedMovesTheSpectrumDownAnOctaveAndLowersItByItsLaw() {
    double[] fast = noise(0.1, 0.3, TURNS * RATE)[0];
    double[] slow = noise(0.05, 0.3, TURNS * RATE)[0];
    // S_v(f) = v S(f/v): band power scales with v^2 when the band moves with v: -6.02 dB
    for (double[] band : new double[][] {{400, 1000}, {1000, 2500}, {2500, 5000}}) {
      double db =
          10
              * Math.log10(
                  bandPower(slow, band[0] / 2, band[1] / 2) / bandPower(fast, band[0], band[1]));
      double resonance =
          20
              * Math.log10(
                  Pickup.ordinary().gain((band[0] + band[1]) / 4)
                      / Pickup.ordinary().gain((band[0] + band[1]) / 2));
      // one-pole shapes warp by less than 2 % below 5 kHz; statistics 4 * 0.06 dB
      assertThat(db).isCloseTo(-6.02 + resonance, within(0.4));
    }
  }

  @Test
  void strengthTurnsOnceAndTwiceATurnAndAtNoOtherRate() {
    double[] x = noise(0.1, 0.35, TURNS * RATE)[0];
    // relative amplitude of the power at j cycles a turn; (1+m cos)^2 has 2m at once a turn
    double[] relative = new double[6];
    for (int j = 1; j < 6; j++) {
      double re = 0;
      double im = 0;
      for (int i = 0; i < x.length; i++) {
        double phase = 2 * Math.PI * j * i / RATE;
        re += x[i] * x[i] * Math.cos(phase);
        im += x[i] * x[i] * Math.sin(phase);
      }
      relative[j] = 2 * Math.hypot(re, im) / x.length / power(x);
    }
    // depth 0.25 at once a turn: 2 * 0.25 (+- 0.25*0.1 beat) / 1.036
    assertThat(relative[1]).isBetween(0.40, 0.56);
    assertThat(relative[2]).isBetween(0.12, 0.28);
    assertThat(relative[4]).isLessThan(0.08);
    assertThat(relative[5]).isLessThan(0.08);
  }

  @Test
  void fillingInPiecesGivesTheSameNoise() {
    double[][] whole = noise(0.1, 0.35, 20_000);
    SurfaceNoise.Level level =
        new SurfaceNoise.Level(-40, -37, 0.35, turntable(0.1).grooveSpeed(0));
    SurfaceNoise stream = new SurfaceNoise(TRANSFER, turntable(0.1), level, 7);
    double[][] cut = new double[2][20_000];
    int at = 0;
    for (int block = 1; at < 20_000; block = block * 3 % 1021 + 1) {
      int count = Math.min(block, 20_000 - at);
      stream.addTo(cut, at, count);
      at += count;
    }
    assertThat(cut).isDeepEqualTo(whole);
  }

  @Test
  void lowestRateHasNoPickupResonanceAndStillTheStatedLevel() {
    Transfer low = new Transfer(8_000, Pickup.ordinary(), 0.4);
    SurfaceNoise.Level level =
        new SurfaceNoise.Level(-40, -37, 0.35, turntable(0.1).grooveSpeed(0));
    double[][] out = new double[2][TURNS * 8_000];
    new SurfaceNoise(low, turntable(0.1), level, 7).addTo(out, 0, out[0].length);
    // narrower band than above: standard error 0.075 dB, four of them
    assertThat(10 * Math.log10(power(out[0]))).isCloseTo(-40, within(0.3));
  }
}
