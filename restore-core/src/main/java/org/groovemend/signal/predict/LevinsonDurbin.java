package org.groovemend.signal.predict;

/**
 * Solves the normal equations of linear prediction for a symmetric Toeplitz matrix (Levinson 1946,
 * Durbin 1960).
 */
public final class LevinsonDurbin {
  private LevinsonDurbin() {}

  /**
   * Prediction-error filter of the given order from autocorrelations.
   *
   * <p>If the error stops being positive on the way (a constant, or rounding), the recursion ends
   * there and the remaining coefficients are 0: the filter is then that of the lower order and
   * still minimum phase.
   *
   * @param r autocorrelations at lags 0 to {@code order}
   * @param order at least 0
   * @param a receives {@code a[0] = 1 ... a[order]}
   * @param reflection receives {@code order} reflection coefficients, or null
   * @return variance of the prediction error in the unit of {@code r[0]}; 0 if {@code r[0]} is not
   *     positive
   */
  public static double solve(double[] r, int order, double[] a, double[] reflection) {
    for (int k = 1; k <= order; k++) {
      a[k] = 0;
      if (reflection != null) {
        reflection[k - 1] = 0;
      }
    }
    a[0] = 1;
    double error = r[0];
    if (!(error > 0)) {
      return 0;
    }
    for (int k = 1; k <= order; k++) {
      double s0 = r[k];
      double s1 = 0;
      double s2 = 0;
      double s3 = 0;
      int i = 1;
      for (; i + 3 < k; i += 4) {
        s0 += a[i] * r[k - i];
        s1 += a[i + 1] * r[k - i - 1];
        s2 += a[i + 2] * r[k - i - 2];
        s3 += a[i + 3] * r[k - i - 3];
      }
      for (; i < k; i++) {
        s0 += a[i] * r[k - i];
      }
      double kappa = (s0 + s1 + (s2 + s3)) / error;
      double next = error * (1 - kappa * kappa);
      if (!(next > 0)) {
        return error;
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
      error = next;
    }
    return error;
  }
}
