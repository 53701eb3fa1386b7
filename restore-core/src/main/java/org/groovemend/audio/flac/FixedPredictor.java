package org.groovemend.audio.flac;

/**
 * The polynomial predictors of order 0 to 4, RFC 9639 section 9.2.5: the residual is the order-th
 * difference.
 *
 * <p>Samples and residuals of up to 32 bits wrap around alike in both directions, so {@code int}
 * serves for them. The first {@code order} samples are not predicted and stand in both arrays'
 * place for samples.
 */
final class FixedPredictor {

  static final int MAX_ORDER = 4;

  private FixedPredictor() {}

  /**
   * Fills {@code x[order]} to {@code x[count - 1]} from the residual and {@code x[0]} to {@code
   * x[order - 1]}.
   */
  static void restore(int order, int[] residual, int[] x, int count) {
    switch (order) {
      case 0 -> System.arraycopy(residual, 0, x, 0, count);
      case 1 -> {
        int value = x[0];
        for (int i = 1; i < count; i++) {
          value += residual[i];
          x[i] = value;
        }
      }
      case 2 -> {
        int value = x[1];
        int d1 = x[1] - x[0];
        for (int i = 2; i < count; i++) {
          d1 += residual[i];
          value += d1;
          x[i] = value;
        }
      }
      case 3 -> {
        int value = x[2];
        int d1 = x[2] - x[1];
        int d2 = d1 - (x[1] - x[0]);
        for (int i = 3; i < count; i++) {
          d2 += residual[i];
          d1 += d2;
          value += d1;
          x[i] = value;
        }
      }
      default -> {
        int value = x[3];
        int d1 = x[3] - x[2];
        int d2 = d1 - (x[2] - x[1]);
        int d3 = d2 - (x[2] - 2 * x[1] + x[0]);
        for (int i = 4; i < count; i++) {
          d3 += residual[i];
          d2 += d3;
          d1 += d2;
          value += d1;
          x[i] = value;
        }
      }
    }
  }

  /**
   * The inverse of {@link #restore}: fills {@code residual[order]} to {@code residual[count - 1]}.
   */
  static void residual(int order, int[] x, int[] residual, int count) {
    switch (order) {
      case 0 -> System.arraycopy(x, 0, residual, 0, count);
      case 1 -> {
        for (int i = 1; i < count; i++) {
          residual[i] = x[i] - x[i - 1];
        }
      }
      case 2 -> {
        for (int i = 2; i < count; i++) {
          residual[i] = x[i] - 2 * x[i - 1] + x[i - 2];
        }
      }
      case 3 -> {
        for (int i = 3; i < count; i++) {
          residual[i] = x[i] - 3 * (x[i - 1] - x[i - 2]) - x[i - 3];
        }
      }
      default -> {
        for (int i = 4; i < count; i++) {
          residual[i] = x[i] - 4 * (x[i - 1] + x[i - 3]) + 6 * x[i - 2] + x[i - 4];
        }
      }
    }
  }

  /** The prediction of sample {@code i} in the 33 bits of a side channel of 32-bit samples. */
  static long predictWide(int order, long[] x, int i) {
    return switch (order) {
      case 0 -> 0;
      case 1 -> x[i - 1];
      case 2 -> 2 * x[i - 1] - x[i - 2];
      case 3 -> 3 * (x[i - 1] - x[i - 2]) + x[i - 3];
      default -> 4 * (x[i - 1] + x[i - 3]) - 6 * x[i - 2] - x[i - 4];
    };
  }
}
