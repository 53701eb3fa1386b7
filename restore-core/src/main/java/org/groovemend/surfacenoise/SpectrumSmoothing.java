package org.groovemend.surfacenoise;

import java.util.Arrays;

/**
 * Smooths a power spectrum over a share of an octave, but never across a line that stands out of
 * it, such as hum.
 */
final class SpectrumSmoothing {

  /**
   * A line this much above the median of its neighbours is left alone, with the window's main lobe
   * around it.
   */
  private static final double LINE_RATIO = 4;

  private static final int LOBE = 2;
  private static final int REACH = 8;

  private SpectrumSmoothing() {}

  static double[] smooth(double[] power, double octaves) {
    int n = power.length;
    boolean[] line = lines(power);
    double[] out = new double[n];
    double half = StrictMath.pow(2, octaves / 2);
    for (int k = 0; k < n; k++) {
      if (line[k]) {
        out[k] = power[k];
        continue;
      }
      int low = Math.max(k == 0 ? 0 : 1, (int) Math.floor(k / half + 0.5));
      int high = Math.min(k == n - 1 ? k : n - 2, (int) Math.floor(k * half + 0.5));
      // alike on both sides, or a tilted spectrum would be shifted
      int reach = Math.max(0, Math.min(k - low, high - k));
      double sum = 0;
      int count = 0;
      for (int j = k - reach; j <= k + reach; j++) {
        if (!line[j]) {
          sum += power[j];
          count++;
        }
      }
      out[k] = sum / count;
    }
    return out;
  }

  private static boolean[] lines(double[] power) {
    int n = power.length;
    boolean[] line = new boolean[n];
    double[] sorted = new double[2 * REACH + 1];
    for (int k = REACH; k < n - REACH; k++) {
      System.arraycopy(power, k - REACH, sorted, 0, sorted.length);
      Arrays.sort(sorted);
      if (power[k] > LINE_RATIO * sorted[REACH]
          && power[k] >= power[k - 1]
          && power[k] >= power[k + 1]) {
        Arrays.fill(line, Math.max(0, k - LOBE), Math.min(n, k + LOBE + 1), true);
      }
    }
    return line;
  }
}
