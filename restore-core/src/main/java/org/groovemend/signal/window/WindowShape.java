package org.groovemend.signal.window;

/** Shapes of window, all with peak 1. */
public enum WindowShape {
  RECTANGULAR(1.0),
  /** Square root of {@link #HANN}: a half period of a sine. */
  SQRT_HANN(),
  HANN(0.5, 0.5),
  HAMMING(0.54, 0.46),
  BLACKMAN(0.42, 0.50, 0.08),
  /** Minimum four-term window. */
  BLACKMAN_HARRIS(0.35875, 0.48829, 0.14128, 0.01168);

  private final double[] cosine;

  WindowShape(double... cosine) {
    this.cosine = cosine;
  }

  /**
   * For frames that overlap: w[n] has denominators {@code length}, so that shifted copies add up to
   * a constant.
   *
   * @param length at least 1
   */
  public double[] periodic(int length) {
    return sampled(length, length);
  }

  /**
   * Equal at both ends, denominators {@code length - 1}; shifted copies do <em>not</em> add up to a
   * constant.
   *
   * @param length at least 1; a length of 1 gives a single 1
   */
  public double[] symmetric(int length) {
    return length == 1 ? new double[] {1.0} : sampled(length, length - 1);
  }

  private double[] sampled(int length, int denominator) {
    if (length < 1) {
      throw new IllegalArgumentException("window length " + length + " is not at least 1");
    }
    double[] w = new double[length];
    for (int n = 0; n < length; n++) {
      // the second half mirrors the first exactly
      int m = Math.min(n, denominator - n);
      w[n] = at(m, denominator);
    }
    return w;
  }

  private double at(int n, int denominator) {
    if (this == SQRT_HANN) {
      return StrictMath.sin(Math.PI * n / denominator);
    }
    double sum = 0;
    for (int k = 0; k < cosine.length; k++) {
      double term = cosine[k] * StrictMath.cos(2 * Math.PI * k * n / denominator);
      sum += (k & 1) == 0 ? term : -term;
    }
    return sum;
  }
}
