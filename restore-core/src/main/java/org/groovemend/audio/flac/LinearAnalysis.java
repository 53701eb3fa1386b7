package org.groovemend.audio.flac;

import java.util.Arrays;

/**
 * Finds a linear predictor for a block: autocorrelation method, Levinson-Durbin recursion (J.
 * Makhoul, Linear prediction: a tutorial review, Proc. IEEE 63, 1975).
 *
 * <p>The autocorrelation is that of a few windowed stretches of the block, a quarter of it
 * together: enough to see whether the predictor is worth its price, and to find one for noise and
 * tones that last.
 */
final class LinearAnalysis {

  static final int ORDER = 8;

  /** Stretches this long are taken, one of every {@link #EVERY}. */
  private static final int STRETCH = 256;

  private static final int EVERY = 4;

  /** Bits of a coefficient; with 25-bit samples the sums of this project stay far within a long. */
  private static final int PRECISION = 14;

  /**
   * Chosen if the energy of the prediction error, against that of the polynomial predictor, is
   * below this: a gain of a quarter of a bit a sample. Noise that gains less is written a fifth
   * faster the other way.
   */
  private static final double WORTHWHILE = 0.7;

  /** Limit of the sum of coefficient magnitudes, so that no residual leaves 32 bits. */
  private static final double MAX_GAIN = 60;

  /** By order: the coefficients of the energy of a difference in terms of the autocorrelation. */
  private static final double[][] DIFFERENCE_ENERGY = {
    {1}, {2, -2}, {6, -8, 2}, {20, -30, 12, -2}, {70, -112, 56, -16, 2}
  };

  private final double[] window = new double[STRETCH];
  private final double[] x = new double[STRETCH];
  private final double[] r = new double[ORDER + 1];
  private final double[] a = new double[ORDER];

  LinearAnalysis() {
    for (int i = 0; i < STRETCH; i++) {
      double t = (2 * i - STRETCH + 1.0) / (STRETCH + 1);
      window[i] = 1 - t * t;
    }
  }

  /**
   * Makes a subframe's plan LINEAR if that promises to be worth it.
   *
   * @param plan with the polynomial predictor found for the block
   * @param samples without the wasted bits, at most 25 bits
   */
  void improve(SubframePlan plan, int[] samples, int count) {
    int step = STRETCH * EVERY;
    if (count < step) {
      return;
    }
    Arrays.fill(r, 0);
    for (int at = (step - STRETCH) / 2; at + STRETCH <= count; at += step) {
      for (int i = 0; i < STRETCH; i++) {
        x[i] = samples[at + i] * window[i];
      }
      correlate();
    }
    double error = recursion();
    double polynomial = 0;
    double[] energy = DIFFERENCE_ENERGY[plan.order];
    for (int i = 0; i < energy.length; i++) {
      polynomial += energy[i] * r[i];
    }
    if (error > 0 && error < WORTHWHILE * polynomial) {
      quantise(plan);
    }
  }

  private void correlate() {
    double r0 = 0;
    double r1 = 0;
    double r2 = 0;
    double r3 = 0;
    double r4 = 0;
    double r5 = 0;
    double r6 = 0;
    double r7 = 0;
    double r8 = 0;
    for (int i = ORDER; i < STRETCH; i++) {
      double v = x[i];
      r0 += v * v;
      r1 += v * x[i - 1];
      r2 += v * x[i - 2];
      r3 += v * x[i - 3];
      r4 += v * x[i - 4];
      r5 += v * x[i - 5];
      r6 += v * x[i - 6];
      r7 += v * x[i - 7];
      r8 += v * x[i - 8];
    }
    // the first samples, where the window is all but closed
    for (int i = 0; i < ORDER; i++) {
      for (int lag = 0; lag <= i; lag++) {
        r[lag] += x[i] * x[i - lag];
      }
    }
    r[0] += r0;
    r[1] += r1;
    r[2] += r2;
    r[3] += r3;
    r[4] += r4;
    r[5] += r5;
    r[6] += r6;
    r[7] += r7;
    r[8] += r8;
  }

  /**
   * Fills {@link #a} and gives the energy of the prediction error, 0 if there is none to speak of.
   */
  private double recursion() {
    double error = r[0];
    for (int i = 0; i < ORDER; i++) {
      if (error <= 1e-9 * r[0]) {
        return 0;
      }
      double sum = r[i + 1];
      for (int j = 0; j < i; j++) {
        sum -= a[j] * r[i - j];
      }
      double k = sum / error;
      a[i] = k;
      for (int j = 0; j < i - 1 - j; j++) {
        double low = a[j];
        a[j] = low - k * a[i - 1 - j];
        a[i - 1 - j] -= k * low;
      }
      if ((i & 1) == 1) {
        a[i / 2] -= k * a[i / 2];
      }
      error *= 1 - k * k;
    }
    return error;
  }

  private void quantise(SubframePlan plan) {
    double largest = 0;
    double gain = 0;
    for (double c : a) {
      largest = Math.max(largest, Math.abs(c));
      gain += Math.abs(c);
    }
    int shift = Math.min(15, PRECISION - 2 - Math.getExponent(largest));
    if (!(gain < MAX_GAIN) || shift < 0) {
      return;
    }
    int limit = 1 << PRECISION - 1;
    double carried = 0;
    for (int i = 0; i < ORDER; i++) {
      carried += a[i] * (1 << shift);
      long c = Math.max(-limit, Math.min(limit - 1, Math.round(carried)));
      carried -= c;
      plan.coefficients[i] = (int) c;
    }
    plan.type = SubframeType.LINEAR;
    plan.order = ORDER;
    plan.precision = PRECISION;
    plan.shift = shift;
  }
}
