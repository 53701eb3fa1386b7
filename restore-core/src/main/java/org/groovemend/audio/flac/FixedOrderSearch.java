package org.groovemend.audio.flac;

/** Finds the polynomial predictor with the smallest sum of residual magnitudes. */
final class FixedOrderSearch {

  /** Residuals beyond this many bits are not written. */
  private static final long MAX_RESIDUAL = Integer.MAX_VALUE;

  private final long[] sums = new long[FixedPredictor.MAX_ORDER + 1];
  private int order;

  /**
   * @param x samples of at most 28 bits, so that no difference overflows
   */
  void search(int[] x, int count) {
    if (count <= FixedPredictor.MAX_ORDER) {
      order = 0;
      sums[0] = RiceParameter.magnitude(x, 0, count);
      return;
    }
    int d1 = x[3] - x[2];
    int d2 = d1 - (x[2] - x[1]);
    int d3 = d2 - (x[2] - 2 * x[1] + x[0]);
    int d0 = x[3];
    long s0 = 0;
    long s1 = 0;
    long s2 = 0;
    long s3 = 0;
    long s4 = 0;
    for (int i = 4; i < count; i++) {
      int e0 = x[i];
      int e1 = e0 - d0;
      int e2 = e1 - d1;
      int e3 = e2 - d2;
      int e4 = e3 - d3;
      s0 += Math.abs(e0);
      s1 += Math.abs(e1);
      s2 += Math.abs(e2);
      s3 += Math.abs(e3);
      s4 += Math.abs(e4);
      d0 = e0;
      d1 = e1;
      d2 = e2;
      d3 = e3;
    }
    sums[0] = s0;
    sums[1] = s1;
    sums[2] = s2;
    sums[3] = s3;
    sums[4] = s4;
    choose(FixedPredictor.MAX_ORDER);
  }

  /** As {@link #search} for samples of up to 32 bits; leaves out orders whose residual does not fit 32 bits. */
  void searchWide(int[] x, int count) {
    int usable = -1;
    for (int o = 0; o <= Math.min(FixedPredictor.MAX_ORDER, count - 1); o++) {
      long sum = 0;
      long peak = 0;
      for (int i = o; i < count; i++) {
        long r =
            switch (o) {
              case 0 -> x[i];
              case 1 -> (long) x[i] - x[i - 1];
              case 2 -> x[i] - 2L * x[i - 1] + x[i - 2];
              case 3 -> x[i] - 3L * x[i - 1] + 3L * x[i - 2] - x[i - 3];
              default -> x[i] - 4L * x[i - 1] + 6L * x[i - 2] - 4L * x[i - 3] + x[i - 4];
            };
        sum += Math.abs(r);
        peak |= Math.abs(r);
      }
      if (peak > MAX_RESIDUAL) {
        break;
      }
      sums[o] = sum;
      usable = o;
    }
    choose(usable);
  }

  private void choose(int last) {
    order = last < 0 ? -1 : 0;
    for (int o = 1; o <= last; o++) {
      order = sums[o] < sums[order] ? o : order;
    }
  }

  /** The order found, -1 if none can be used. */
  int order() {
    return order;
  }

  /** The sum of magnitudes with that order; not defined if there is none. */
  long magnitude() {
    return order < 0 ? Long.MAX_VALUE : sums[order];
  }
}
