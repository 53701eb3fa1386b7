package org.groovemend.signal.predict;

/**
 * Burg's estimator: each reflection coefficient minimises forward plus backward error energy (Burg
 * 1975). Always minimum phase. One instance per thread.
 */
public final class Burg {
  private final double[] forward;
  private final double[] backward;

  /**
   * @param maxLength longest piece that will be fitted, in samples
   */
  public Burg(int maxLength) {
    forward = new double[maxLength];
    backward = new double[maxLength];
  }

  /**
   * Fits {@code x[offset ... offset + length)}; the mean is kept.
   *
   * @param order less than {@code length}
   * @param a receives {@code a[0] = 1 ... a[order]}
   * @param reflection receives {@code order} reflection coefficients, or null
   * @return variance of the prediction error: mean square times prod(1 - k^2)
   */
  public double fit(
      double[] x, int offset, int length, int order, double[] a, double[] reflection) {
    if (order >= length) {
      throw new IllegalArgumentException(
          "order " + order + " needs more than " + length + " samples");
    }
    double power = 0;
    for (int n = 0; n < length; n++) {
      double v = x[offset + n];
      forward[n] = v;
      backward[n] = v;
      power += v * v;
    }
    double error = power / length;
    a[0] = 1;
    for (int k = 1; k <= order; k++) {
      a[k] = 0;
      if (reflection != null) {
        reflection[k - 1] = 0;
      }
    }
    double floor = error * 1e-14;
    for (int k = 1; k <= order; k++) {
      double numerator = 0;
      double denominator = 0;
      for (int n = k; n < length; n++) {
        double f = forward[n];
        double b = backward[n - 1];
        numerator += f * b;
        denominator += f * f + b * b;
      }
      if (!(denominator > 1e-300) || !(error > floor)) {
        break;
      }
      double kappa = 2 * numerator / denominator;
      for (int n = length - 1; n >= k; n--) {
        double f = forward[n];
        double b = backward[n - 1];
        forward[n] = f - kappa * b;
        backward[n] = b - kappa * f;
      }
      for (int lo = 1, hi = k - 1; lo <= hi; lo++, hi--) {
        double left = a[lo];
        double right = a[hi];
        a[lo] = left - kappa * right;
        a[hi] = right - kappa * left;
      }
      a[k] = -kappa;
      if (reflection != null) {
        reflection[k - 1] = kappa;
      }
      error *= 1 - kappa * kappa;
    }
    return error;
  }
}
