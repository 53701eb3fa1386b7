package org.groovemend.audio.flac;

/**
 * Finds the polynomial predictor with the smallest sum of residual magnitudes.
 *
 * <p>For samples of up to 28 bits differences are taken one order after the other in loops that a
 * compiler can turn into vector instructions, and the search ends when an order makes it worse.
 * Sums are kept in an {@code int} and, where they would not fit, of magnitudes shifted right; the
 * shift follows the peak of the block.
 */
final class FixedOrderSearch {

  private static final int PROXY_ORDER = 2;

  private int[] difference = new int[0];
  private int order;
  private long magnitude;

  /** A measure of how many bits the samples will need, for comparing channels of a block. */
  long proxy(int[] x, int count) {
    int o = Math.min(PROXY_ORDER, count - 1);
    int shift = shift(x, count, o);
    reserve(count);
    FixedPredictor.residual(o, x, difference, count);
    long magnitude = (long) magnitude(difference, o, count, shift) << shift;
    return RiceParameter.bits(magnitude, count, RiceParameter.of(magnitude, count));
  }

  /**
   * @param x samples of at most 28 bits, so that no difference overflows
   */
  void search(int[] x, int count) {
    reserve(count);
    int last = Math.min(FixedPredictor.MAX_ORDER, count - 1);
    int shift = shift(x, count, last);
    order = 0;
    int least = magnitude(x, last, count, shift);
    for (int o = 1; o <= last; o++) {
      FixedPredictor.residual(o, x, difference, count);
      int sum = magnitude(difference, last, count, shift);
      if (sum >= least) {
        break;
      }
      order = o;
      least = sum;
    }
    magnitude = (long) least << shift;
  }

  private void reserve(int count) {
    if (difference.length < count) {
      difference = new int[count];
    }
  }

  /**
   * By how much magnitudes must be shifted for the sum of {@code count} differences to fit an int.
   */
  private static int shift(int[] x, int count, int order) {
    int any = 0;
    for (int i = 0; i < count; i++) {
      any |= x[i] ^ x[i] >> 31;
    }
    int width = 32 - Integer.numberOfLeadingZeros(any) + order;
    int terms = 32 - Integer.numberOfLeadingZeros(count);
    return Math.max(0, width + terms - 31);
  }

  private static int magnitude(int[] r, int from, int to, int shift) {
    int sum = 0;
    for (int i = from; i < to; i++) {
      sum += Math.abs(r[i]) >>> shift;
    }
    return sum;
  }

  /**
   * As {@link #search} for samples of up to 32 bits; leaves out orders whose residual does not fit
   * 32 bits.
   */
  void searchWide(int[] x, int count) {
    order = -1;
    long least = Long.MAX_VALUE;
    for (int o = 0; o <= Math.min(FixedPredictor.MAX_ORDER, count - 1); o++) {
      long sum = 0;
      long peak = 0;
      for (int i = o; i < count; i++) {
        long r = Math.abs(x[i] - prediction(o, x, i));
        sum += r;
        peak |= r;
      }
      if (peak > Integer.MAX_VALUE || sum >= least) {
        return;
      }
      order = o;
      least = sum;
    }
  }

  private static long prediction(int order, int[] x, int i) {
    return switch (order) {
      case 0 -> 0;
      case 1 -> x[i - 1];
      case 2 -> 2L * x[i - 1] - x[i - 2];
      case 3 -> 3L * x[i - 1] - 3L * x[i - 2] + x[i - 3];
      default -> 4L * x[i - 1] - 6L * x[i - 2] + 4L * x[i - 3] - x[i - 4];
    };
  }

  /** The sum of magnitudes with that order, after {@link #search}. */
  long magnitude() {
    return magnitude;
  }

  /** The order found, -1 if none can be used. */
  int order() {
    return order;
  }
}
