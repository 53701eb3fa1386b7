package org.groovemend.thump;

/** A damped step of Gauss and Newton (Levenberg 1944): a few equations, solved by elimination. */
final class LinearStep {
  private LinearStep() {}

  /**
   * Solves {@code (N + damping diag N) x = g}.
   *
   * @param normal symmetric, not changed
   */
  static void solve(double[][] normal, double[] g, int n, double damping, double[] x) {
    double[][] m = new double[n][n + 1];
    double largest = 0;
    for (int i = 0; i < n; i++) {
      largest = Math.max(largest, normal[i][i]);
    }
    for (int i = 0; i < n; i++) {
      System.arraycopy(normal[i], 0, m[i], 0, n);
      m[i][i] += damping * normal[i][i] + 1e-9 * largest;
      m[i][n] = g[i];
    }
    for (int i = 0; i < n; i++) {
      double pivot = m[i][i];
      for (int k = i + 1; k < n && pivot != 0; k++) {
        double f = m[k][i] / pivot;
        for (int j = i; j <= n; j++) {
          m[k][j] -= f * m[i][j];
        }
      }
    }
    java.util.Arrays.fill(x, 0);
    for (int i = n - 1; i >= 0; i--) {
      double sum = m[i][n];
      for (int j = i + 1; j < n; j++) {
        sum -= m[i][j] * x[j];
      }
      x[i] = m[i][i] > 0 ? sum / m[i][i] : 0;
    }
  }
}
