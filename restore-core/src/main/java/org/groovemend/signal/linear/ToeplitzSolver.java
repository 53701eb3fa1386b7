package org.groovemend.signal.linear;

/**
 * Solves a symmetric positive definite Toeplitz system by Levinson's recursion and gives the
 * diagonal of the inverse by the formula of Gohberg and Semencul (1972). Work {@code n^2} products
 * and no matrix. One instance per thread; the arrays grow to the largest system met.
 */
public final class ToeplitzSolver {
  private double[] a = new double[0];
  private double[] x = new double[0];
  private double[] drops = new double[0];
  private double error;
  private int size;

  /**
   * Solves T x = rhs in place.
   *
   * @param t first column of the matrix, {@code length} elements; elements beyond are 0
   * @param rhs {@code n} values, replaced by the solution
   * @return false if the recursion finds the matrix not positive definite; {@code rhs} is then
   *     unchanged
   */
  public boolean solve(double[] t, int length, double[] rhs, int n) {
    if (a.length < n) {
      a = new double[Math.max(n, 2 * a.length)];
      x = new double[a.length];
      drops = new double[a.length];
    }
    size = n;
    error = t[0];
    double least = t[0] * 1e-14;
    if (!(error > 0)) {
      return false;
    }
    a[0] = 1;
    x[0] = rhs[0] / error;
    drops[0] = rhs[0] * x[0];
    for (int k = 1; k < n; k++) {
      double kappa = -reversed(a, t, length, k) / error;
      a[k] = 0;
      for (int lo = 1, hi = k - 1; lo <= hi; lo++, hi--) {
        double left = a[lo];
        double right = a[hi];
        a[lo] = left + kappa * right;
        a[hi] = right + kappa * left;
      }
      a[k] = kappa;
      error *= 1 - kappa * kappa;
      if (!(error > least)) {
        return false;
      }
      double mu = (rhs[k] - reversed(x, t, length, k)) / error;
      for (int i = 0; i < k; i++) {
        x[i] += mu * a[k - i];
      }
      x[k] = mu;
      drops[k] = mu * mu * error;
    }
    System.arraycopy(x, 0, rhs, 0, n);
    return true;
  }

  /**
   * What each element adds to {@code rhs' T^-1 rhs} after all before it, for the system solved
   * last; the squares of {@code L^-1 rhs} where T = L L'. Overwritten by the next call.
   */
  public double[] drops() {
    return drops;
  }

  /**
   * What is left of the last diagonal element after elimination of all before it: one over the last
   * diagonal element of the inverse of the matrix solved last.
   */
  public double lastPivot() {
    return error;
  }

  /** Trace of the inverse of the matrix solved last. */
  public double inverseTrace() {
    double element = 1 / error;
    double trace = element;
    for (int i = 1; i < size; i++) {
      element += (a[i] * a[i] - a[size - i] * a[size - i]) / error;
      trace += element;
    }
    return trace;
  }

  /** {@code sum v[i] t[k-i]} for i below k, as far as t reaches. */
  private static double reversed(double[] v, double[] t, int length, int k) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int i = Math.max(0, k - length + 1);
    for (; i + 3 < k; i += 4) {
      s0 += v[i] * t[k - i];
      s1 += v[i + 1] * t[k - i - 1];
      s2 += v[i + 2] * t[k - i - 2];
      s3 += v[i + 3] * t[k - i - 3];
    }
    for (; i < k; i++) {
      s0 += v[i] * t[k - i];
    }
    return s0 + s1 + (s2 + s3);
  }
}
