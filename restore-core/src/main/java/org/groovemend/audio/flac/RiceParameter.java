package org.groovemend.audio.flac;

/**
 * The Rice parameter that suits a run of residuals; used for choosing one and for guessing what
 * another encoder chose.
 *
 * <p>{@link #magnitude} and {@link #of} are part of the recipe format of version 1: they must never
 * give other values.
 */
final class RiceParameter {

  private RiceParameter() {}

  /** Sum of the magnitudes of {@code residual[from]} to {@code residual[to - 1]}. */
  static long magnitude(int[] residual, int from, int to) {
    long sum = 0;
    for (int i = from; i < to; i++) {
      sum += Math.abs((long) residual[i]);
    }
    return sum;
  }

  /**
   * The least k with count * 2^k not below the sum of magnitudes: near the best for a two-sided
   * geometric residual.
   */
  static int of(long magnitude, int count) {
    if (magnitude <= count) {
      return 0;
    }
    int k =
        64 - Long.numberOfLeadingZeros(magnitude - 1) - (32 - Integer.numberOfLeadingZeros(count));
    k = Math.max(0, k);
    while ((long) count << k < magnitude) {
      k++;
    }
    return k;
  }

  /**
   * Bits of {@code count} codes, nearly: the folded residuals sum to about twice the magnitude, and
   * the low bits cut off from one are on average half of 2^k - 1.
   */
  static long bits(long magnitude, int count, int k) {
    return (long) count * (k + 1) + Math.max(0, (2 * magnitude >> k) - count / 2);
  }
}
