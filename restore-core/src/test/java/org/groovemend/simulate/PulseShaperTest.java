package org.groovemend.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.groovemend.signal.fft.RealFft;
import org.junit.jupiter.api.Test;

class PulseShaperTest {

  private static final double SPEED = 0.9;
  private static final Transfer TRANSFER = new Transfer(96_000, Pickup.ordinary(), 0.4);
  private static final GroovePulse PULSE = new GroovePulse(4e-6, 40e-6, 80e-6);

  /** |V(f)| of the analytic velocity by a fine sum, full scale times seconds. */
  private static double analytic(double hz) {
    int steps = 20_000;
    double dt = PULSE.seconds(SPEED) / steps;
    double re = 0;
    double im = 0;
    for (int i = 0; i < steps; i++) {
      double t = (i + 0.5) * dt;
      double v = PULSE.velocity(t, SPEED) / 0.4;
      re += v * Math.cos(2 * Math.PI * hz * t) * dt;
      im += v * Math.sin(2 * Math.PI * hz * t) * dt;
    }
    return Math.hypot(re, im);
  }

  private static double[] spectrum(double[] samples) {
    double[] a = java.util.Arrays.copyOf(samples, 4096);
    new RealFft(4096).forward(a);
    return a;
  }

  @Test
  void spectrumIsThatOfTheVelocityTimesThePickupResonance() {
    double[] a = spectrum(new PulseShaper(TRANSFER).samples(1000.375, PULSE, SPEED));
    for (int k = 20; k < 1280; k += 40) {
      double hz = k * 96_000 / 4096.0;
      double measured = Math.hypot(a[2 * k], a[2 * k + 1]) / 96_000;
      double expected = analytic(hz) * Pickup.ordinary().gain(hz);
      assertThat(20 * Math.log10(measured / expected))
          .as("%.0f Hz", hz)
          // bilinear warping at 30 kHz (0.15 dB for this Q) and ripple of the converter's low-pass
          .isCloseTo(0, within(0.2));
    }
  }

  @Test
  void velocityIsTheDerivativeOfTheDisplacement() {
    double d = 1e-9;
    for (double t = 2e-6; t < PULSE.seconds(SPEED); t += 5e-6) {
      double slope =
          (PULSE.displacement(t + d, SPEED) - PULSE.displacement(t - d, SPEED)) / (2 * d);
      assertThat(PULSE.velocity(t, SPEED)).isCloseTo(slope, within(1e-5));
    }
  }

  @Test
  void pulseBringsTheStylusBackToItsPath() {
    double[] s = new PulseShaper(TRANSFER).samples(50, PULSE, SPEED);
    double sum = 0;
    double magnitude = 0;
    for (double y : s) {
      sum += y;
      magnitude += Math.abs(y);
    }
    assertThat(Math.abs(sum)).isLessThan(1e-4 * magnitude);
    assertThat(magnitude).isGreaterThan(0.5);
  }

  @Test
  void slowerGrooveMakesTheSamePulseLongerAndWeaker() {
    assertThat(PULSE.seconds(SPEED / 2)).isCloseTo(2 * PULSE.seconds(SPEED), within(1e-12));
    double t = 10e-6;
    assertThat(PULSE.velocity(2 * t, SPEED / 2))
        .isCloseTo(PULSE.velocity(t, SPEED) / 2, within(1e-9));
  }

  @Test
  void wholeFrameShiftMovesTheSamplesAndNothingElse() {
    PulseShaper shaper = new PulseShaper(TRANSFER);
    assertThat(shaper.samples(17.25, PULSE, SPEED))
        .containsExactly(shaper.samples(1_234_567.25, PULSE, SPEED));
    assertThat(shaper.samples(17.5, PULSE, SPEED))
        .isNotEqualTo(shaper.samples(17.25, PULSE, SPEED));
    assertThat(PulseShaper.firstFrame(117.25) - PulseShaper.firstFrame(17.25)).isEqualTo(100);
  }
}
