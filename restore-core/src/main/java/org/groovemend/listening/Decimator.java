package org.groovemend.listening;

import org.groovemend.signal.window.WindowShape;
import org.groovemend.signal.window.WindowedSinc;

/**
 * Low-pass for keeping every second, third, fourth... sample: sinc under a Blackman-Harris window
 * (F. J. Harris, Proc. IEEE 66(1), 1978: side lobes 92 dB down), half gain at half the new rate
 * less a twelfth. What folds back lies above that.
 */
public final class Decimator {

  /** Taps on one side, for each sample left out. */
  private static final int REACH = 32;

  private final int factor;
  private final double[] taps;

  /**
   * @param factor 1 (nothing is done) or more
   */
  Decimator(int factor) {
    this.factor = factor;
    int reach = factor == 1 ? 0 : REACH * factor;
    // in cycles a sample: 22 kHz of 24 at 96 to 48 kHz
    double cut = 0.5 * 11 / (12.0 * factor);
    taps = WindowedSinc.lowPass(WindowShape.BLACKMAN_HARRIS.symmetric(2 * reach + 1), cut);
  }

  /** Frames needed on each side of one that is kept. */
  public int reach() {
    return taps.length / 2;
  }

  public int factor() {
    return factor;
  }

  /**
   * Fills {@code out[0, count)}: sample i stands at {@code in[reach() + i * factor]}.
   *
   * @param in {@code (count - 1) * factor + 2 * reach() + 1} samples
   */
  void apply(double[] in, double[] out, int count) {
    for (int i = 0; i < count; i++) {
      double sum = 0;
      int at = i * factor;
      for (int j = 0; j < taps.length; j++) {
        sum += taps[j] * in[at + j];
      }
      out[i] = sum;
    }
  }
}
