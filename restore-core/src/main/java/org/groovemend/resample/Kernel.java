package org.groovemend.resample;

import org.groovemend.signal.window.KaiserLowPass;

/**
 * Values between the samples of a signal that has room to spare above its band: windowed sinc of
 * {@value #TAPS} taps at any phase. Has no state.
 */
final class Kernel {
  static final int TAPS = 24;

  /** Attenuation of the window: everything from three times the highest kept frequency on. */
  private static final double STOP_DB = 175;

  private static final int PHASES = 256;
  private static final int HALF = TAPS / 2;

  /** Rows of phases -1 to PHASES + 1. */
  private final double[] rows = new double[(PHASES + 3) * TAPS];

  Kernel() {
    int reach = HALF * PHASES;
    double[] fine = KaiserLowPass.design(reach, 0.5 / PHASES, STOP_DB);
    for (int row = 0; row < PHASES + 3; row++) {
      for (int k = 0; k < TAPS; k++) {
        int at = (row - 1) - (k - HALF + 1) * PHASES;
        rows[row * TAPS + k] = Math.abs(at) > reach ? 0 : PHASES * fine[reach + at];
      }
    }
  }

  /**
   * Writes the taps of a phase: {@code taps[k]} belongs to the sample {@code k - HALF + 1} behind
   * the one before the place.
   *
   * @param phase 0 to 1
   */
  void taps(double phase, double[] taps) {
    double at = phase * PHASES;
    int row = Math.min(PHASES - 1, (int) at);
    double u = at - row;
    double a = -u * (u - 1) * (u - 2) / 6;
    double b = (u + 1) * (u - 1) * (u - 2) / 2;
    double c = -(u + 1) * u * (u - 2) / 2;
    double d = (u + 1) * u * (u - 1) / 6;
    int from = row * TAPS;
    for (int k = 0; k < TAPS; k++) {
      int i = from + k;
      taps[k] = a * rows[i] + b * rows[i + TAPS] + c * rows[i + 2 * TAPS] + d * rows[i + 3 * TAPS];
    }
  }

  /** The first sample that {@link #taps} weighs, seen from the one before the place. */
  static int first() {
    return 1 - HALF;
  }
}
