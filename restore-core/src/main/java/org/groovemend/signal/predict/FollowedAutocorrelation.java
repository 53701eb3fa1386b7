package org.groovemend.signal.predict;

import java.util.Arrays;

/**
 * Windowed autocorrelation of a piece that is changed here and there afterwards: the sums are
 * brought up to date from the changes alone. One instance per thread.
 */
public final class FollowedAutocorrelation {
  /**
   * Share of its largest energy that must be left for the sums to be followed: below, what rounding
   * leaves of the lost part would count, and all is summed anew.
   */
  private static final double LEFT = 1e-6;

  private final int maxLag;
  private final Autocorrelation whole;

  /** The weighted piece with {@code maxLag} zeros before and after. */
  private final double[] weighted;

  /** Sums of the weighted samples as they were at the last call. */
  private final double[] sums;

  private final double[] mirrored;
  private double largest;

  /**
   * @param maxLength longest piece, in samples
   * @param maxLag largest lag
   */
  public FollowedAutocorrelation(int maxLength, int maxLag) {
    this.maxLag = maxLag;
    whole = new Autocorrelation(maxLength, maxLag);
    weighted = new double[maxLength + 2 * maxLag];
    sums = new double[maxLag + 1];
    mirrored = new double[maxLag + 1];
  }

  /**
   * Lags 0 to {@code maxLag} of a new piece.
   *
   * @param window {@code length} weights
   * @param r receives {@code maxLag + 1} sums
   */
  public void compute(double[] x, int offset, int length, double[] window, double[] r) {
    whole.compute(x, offset, length, window, sums);
    for (int n = 0; n < length; n++) {
      weighted[maxLag + n] = window[n] * x[offset + n];
    }
    Arrays.fill(weighted, maxLag + length, 2 * maxLag + length, 0);
    largest = sums[0];
    System.arraycopy(sums, 0, r, 0, maxLag + 1);
  }

  /**
   * The same after samples {@code from} to {@code to} of the piece, counted from its first, may
   * have changed; the others have not, nor the window.
   */
  public void follow(
      double[] x, int offset, int length, double[] window, int from, int to, double[] r) {
    Arrays.fill(mirrored, 0);
    for (int n = from; n < to; n++) {
      int at = maxLag + n;
      double change = window[n] * x[offset + n] - weighted[at];
      if (change != 0) {
        sums[0] += change * (2 * weighted[at] + change);
        accumulate(change, weighted, at + 1, sums, 1, maxLag);
        accumulate(change, weighted, at - maxLag, mirrored, 0, maxLag);
        weighted[at] += change;
      }
    }
    for (int k = 1; k <= maxLag; k++) {
      sums[k] += mirrored[maxLag - k];
    }
    if (sums[0] < LEFT * largest) {
      compute(x, offset, length, window, r);
      return;
    }
    largest = Math.max(largest, sums[0]);
    System.arraycopy(sums, 0, r, 0, maxLag + 1);
  }

  private static void accumulate(double c, double[] x, int at, double[] out, int first, int count) {
    for (int i = 0; i < count; i++) {
      out[first + i] += c * x[at + i];
    }
  }
}
