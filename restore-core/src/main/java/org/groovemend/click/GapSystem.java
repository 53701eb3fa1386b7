package org.groovemend.click;

import org.groovemend.signal.linear.BandedCholesky;
import org.groovemend.signal.linear.ToeplitzSolver;
import org.groovemend.signal.predict.PredictionFilter;

/**
 * Normal equations of the unknown samples under a prediction-error filter: least residual energy
 * (Janssen, Veldhuis and Vries 1986). A single gap gives a Toeplitz matrix, several a banded one.
 * One instance per thread.
 */
final class GapSystem {
  private final int order;
  private final double[] b;
  private final int[] unknown;
  private final double[] d;
  private final BandedCholesky cholesky = new BandedCholesky();
  private final ToeplitzSolver toeplitz = new ToeplitzSolver();
  private int count;
  private boolean single;

  GapSystem(int order, int longest) {
    this.order = order;
    this.b = new double[order + 1];
    this.unknown = new int[longest];
    this.d = new double[longest];
  }

  void model(double[] a) {
    PredictionFilter.coefficientCorrelation(a, order, b);
  }

  void clear() {
    count = 0;
  }

  /** Adds an unknown sample, in rising order. */
  void add(int index) {
    unknown[count++] = index;
  }

  int count() {
    return count;
  }

  /**
   * Puts the most likely values in place of the unknown samples.
   *
   * @return false if the system could not be solved; {@code x} is then unchanged
   */
  boolean solve(double[] x) {
    single = unknown[count - 1] - unknown[0] == count - 1;
    if (single) {
      twoSidedErrors(x, 0, count);
      if (!toeplitz.solve(b, order + 1, d, count)) {
        return false;
      }
    } else {
      if (!factor(x)) {
        return false;
      }
      cholesky.solve(d);
    }
    for (int i = 0; i < count; i++) {
      x[unknown[i]] -= d[i];
    }
    return true;
  }

  /** Trace of the inverse of the matrix solved last. */
  double inverseTrace() {
    return single ? toeplitz.inverseTrace() : cholesky.inverseTrace();
  }

  /**
   * For every unknown sample the drop in residual energy that declaring it unknown brings, after
   * all before it; null if the system could not be factored.
   */
  double[] drops(double[] x) {
    if (unknown[count - 1] - unknown[0] == count - 1) {
      twoSidedErrors(x, 0, count);
      return toeplitz.solve(b, order + 1, d, count) ? toeplitz.drops() : null;
    }
    if (!factor(x)) {
      return null;
    }
    cholesky.forward(d);
    for (int i = 0; i < count; i++) {
      d[i] *= d[i];
    }
    return d;
  }

  private boolean factor(double[] x) {
    int width = 0;
    for (int i = 0, j = 0; i < count; i++) {
      while (unknown[i] - unknown[j] > order) {
        j++;
      }
      width = Math.max(width, i - j);
    }
    cholesky.reset(count, width);
    for (int j = 0; j < count; j++) {
      int at = unknown[j];
      for (int i = j; i < count && i - j <= width && unknown[i] - at <= order; i++) {
        cholesky.set(i, j, b[unknown[i] - at]);
      }
    }
    for (int j = 0; j < count; ) {
      int t = j + 1;
      while (t < count && unknown[t] == unknown[t - 1] + 1) {
        t++;
      }
      twoSidedErrors(x, j, t);
      j = t;
    }
    return cholesky.factor();
  }

  /** Of the unknown samples number j to t, which lie side by side. */
  private void twoSidedErrors(double[] x, int j, int t) {
    int at = unknown[j];
    for (int i = j; i < t; i++) {
      d[i] = b[0] * x[at + i - j];
    }
    for (int l = 1; l <= order; l++) {
      addNeighbours(b[l], x, at - l, at + l, d, j, t - j);
    }
  }

  private static void addNeighbours(
      double c, double[] x, int left, int right, double[] out, int at, int count) {
    for (int i = 0; i < count; i++) {
      out[at + i] += c * (x[left + i] + x[right + i]);
    }
  }
}
