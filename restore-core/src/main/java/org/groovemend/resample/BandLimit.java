package org.groovemend.resample;

import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.KaiserLowPass;

/**
 * The first step: a low-pass that also doubles the rate, as a spectrum to multiply by, and the size
 * of the blocks it is applied to. Has no state.
 */
final class BandLimit {

  /** Share of the lower half rate that is kept: 20 kHz at 44.1 kHz. */
  static final double KEPT = 0.907;

  /** Attenuation at the half rate, by design. */
  static final double STOP_DB = 155;

  private static final int LEAST_SIZE = 8192;

  /** Input frames on either side that the second step needs, and one more. */
  private static final int MARGIN = Kernel.TAPS / 4 + 1;

  private final int size;
  private final int half;

  /** Lines 0 to {@code size} of the double-rate transform; real, for the filter is symmetrical. */
  private final double[] gain;

  /**
   * @param steepest input frames between two output frames
   */
  BandLimit(double steepest) {
    double edge = 0.5 * Math.min(1, 1 / steepest);
    double width = (1 - KEPT) * edge;
    half = KaiserLowPass.half(STOP_DB, width);
    int wanted = LEAST_SIZE;
    while (wanted < 8L * (half + MARGIN)) {
      wanted *= 2;
    }
    size = wanted;
    // at the double rate all shares halve; the middle of the transition lies at edge - width / 2
    double[] taps = KaiserLowPass.design(2 * half, (edge - width / 2) / 2, STOP_DB);
    double[] circle = new double[2 * size];
    for (int i = -2 * half; i <= 2 * half; i++) {
      // twice, since every other sample that comes in is a zero
      circle[(i + circle.length) % circle.length] = 2 * taps[i + 2 * half];
    }
    new RealFft(2 * size).forward(circle);
    gain = new double[size + 1];
    gain[0] = circle[0];
    gain[size] = circle[1];
    for (int k = 1; k < size; k++) {
      gain[k] = circle[2 * k];
    }
  }

  /** Input frames of a window. */
  int size() {
    return size;
  }

  /** Input frames by which blocks follow one another. */
  int hop() {
    return size - 2 * before();
  }

  /** Input frames of a window before its block. */
  int before() {
    return half + MARGIN;
  }

  /**
   * @param window spectrum of {@link #size} input frames, packed as {@link RealFft} does
   * @param twice filled with the spectrum of as long a stretch at twice the rate
   */
  void apply(double[] window, double[] twice) {
    int n = size;
    twice[0] = window[0] * gain[0];
    twice[1] = window[0] * gain[n];
    twice[n] = window[1] * gain[n / 2];
    twice[n + 1] = 0;
    for (int k = 1; k < n / 2; k++) {
      double re = window[2 * k];
      double im = window[2 * k + 1];
      twice[2 * k] = re * gain[k];
      twice[2 * k + 1] = im * gain[k];
      int image = n - k;
      twice[2 * image] = re * gain[image];
      twice[2 * image + 1] = -im * gain[image];
    }
  }
}
