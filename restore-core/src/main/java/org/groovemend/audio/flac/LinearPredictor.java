package org.groovemend.audio.flac;

/**
 * Linear prediction with integer coefficients, RFC 9639 section 9.2.6: the prediction is the sum of
 * coefficient i times the sample i + 1 before, shifted right.
 *
 * <p>Sums are kept in a {@code long}: 33 bits of sample, 15 of coefficient and 32 terms need 53
 * bits.
 */
final class LinearPredictor {

  private LinearPredictor() {}

  /**
   * Fills {@code x[order]} to {@code x[count - 1]} from the residual and {@code x[0]} to {@code
   * x[order - 1]}.
   */
  static void restore(SubframePlan plan, int[] residual, int[] x, int count) {
    int[] c = plan.coefficients;
    int order = plan.order;
    int shift = plan.shift;
    int whole = order <= 4 ? 4 : order <= 8 ? 8 : order <= 12 ? 12 : order;
    // up to here the unrolled forms would look before the block
    int early = Math.min(whole, count);
    slow(c, order, shift, residual, x, order, early);
    switch (whole) {
      case 4 -> restore4(c, shift, residual, x, count);
      case 8 -> restore8(c, shift, residual, x, count);
      case 12 -> restore12(c, shift, residual, x, count);
      default -> slow(c, order, shift, residual, x, early, count);
    }
  }

  private static void slow(
      int[] c, int order, int shift, int[] residual, int[] x, int from, int to) {
    for (int i = from; i < to; i++) {
      long sum = 0;
      for (int j = order - 1; j >= 0; j--) {
        sum += (long) c[j] * x[i - 1 - j];
      }
      x[i] = residual[i] + (int) (sum >> shift);
    }
  }

  private static void restore4(int[] c, int shift, int[] residual, int[] x, int count) {
    long c0 = c[0];
    long c1 = c[1];
    long c2 = c[2];
    long c3 = c[3];
    int last = count > 4 ? x[3] : 0;
    for (int i = 4; i < count; i++) {
      long sum = c3 * x[i - 4] + c2 * x[i - 3] + c1 * x[i - 2] + c0 * last;
      last = residual[i] + (int) (sum >> shift);
      x[i] = last;
    }
  }

  private static void restore8(int[] c, int shift, int[] residual, int[] x, int count) {
    long c0 = c[0];
    long c1 = c[1];
    long c2 = c[2];
    long c3 = c[3];
    long c4 = c[4];
    long c5 = c[5];
    long c6 = c[6];
    long c7 = c[7];
    int last = count > 8 ? x[7] : 0;
    for (int i = 8; i < count; i++) {
      long old = c7 * x[i - 8] + c6 * x[i - 7] + c5 * x[i - 6] + c4 * x[i - 5];
      long sum = old + c3 * x[i - 4] + c2 * x[i - 3] + c1 * x[i - 2] + c0 * last;
      last = residual[i] + (int) (sum >> shift);
      x[i] = last;
    }
  }

  private static void restore12(int[] c, int shift, int[] residual, int[] x, int count) {
    long c0 = c[0];
    long c1 = c[1];
    long c2 = c[2];
    long c3 = c[3];
    long c4 = c[4];
    long c5 = c[5];
    long c6 = c[6];
    long c7 = c[7];
    long c8 = c[8];
    long c9 = c[9];
    long c10 = c[10];
    long c11 = c[11];
    int last = count > 12 ? x[11] : 0;
    for (int i = 12; i < count; i++) {
      long oldest = c11 * x[i - 12] + c10 * x[i - 11] + c9 * x[i - 10] + c8 * x[i - 9];
      long old = c7 * x[i - 8] + c6 * x[i - 7] + c5 * x[i - 6] + c4 * x[i - 5];
      long sum = oldest + old + c3 * x[i - 4] + c2 * x[i - 3] + c1 * x[i - 2] + c0 * last;
      last = residual[i] + (int) (sum >> shift);
      x[i] = last;
    }
  }

  /**
   * The inverse of {@link #restore}: fills {@code residual[order]} to {@code residual[count - 1]}.
   */
  static void residual(SubframePlan plan, int[] x, int[] residual, int count) {
    int[] c = plan.coefficients;
    int order = plan.order;
    int shift = plan.shift;
    if (order > 4 && order <= 8 && count > 8) {
      slowResidual(c, order, shift, x, residual, order, 8);
      residual8(c, shift, x, residual, count);
    } else {
      slowResidual(c, order, shift, x, residual, order, count);
    }
  }

  private static void slowResidual(
      int[] c, int order, int shift, int[] x, int[] residual, int from, int to) {
    for (int i = from; i < to; i++) {
      long sum = 0;
      for (int j = 0; j < order; j++) {
        sum += (long) c[j] * x[i - 1 - j];
      }
      residual[i] = x[i] - (int) (sum >> shift);
    }
  }

  /** The order that {@link FramePlanner} chooses, unrolled, from sample 8 on. */
  private static void residual8(int[] c, int shift, int[] x, int[] residual, int count) {
    long c0 = c[0];
    long c1 = c[1];
    long c2 = c[2];
    long c3 = c[3];
    long c4 = c[4];
    long c5 = c[5];
    long c6 = c[6];
    long c7 = c[7];
    for (int i = 8; i < count; i++) {
      long old = c7 * x[i - 8] + c6 * x[i - 7] + c5 * x[i - 6] + c4 * x[i - 5];
      long sum = old + c3 * x[i - 4] + c2 * x[i - 3] + c1 * x[i - 2] + c0 * x[i - 1];
      residual[i] = x[i] - (int) (sum >> shift);
    }
  }

  /** The prediction of sample {@code i} in the 33 bits of a side channel of 32-bit samples. */
  static long predictWide(SubframePlan plan, long[] x, int i) {
    long sum = 0;
    for (int j = 0; j < plan.order; j++) {
      sum += plan.coefficients[j] * x[i - 1 - j];
    }
    return sum >> plan.shift;
  }
}
