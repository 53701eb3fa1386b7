package org.groovemend.signal.linear;

import java.util.Arrays;

/**
 * Cholesky factor of a symmetric positive definite matrix with few diagonals. Column oriented:
 * every inner loop adds a scaled array. Work {@code n w^2}. One instance per thread; the arrays
 * grow to the largest system met.
 */
public final class BandedCholesky {
  private double[] band = new double[0];
  private double[] column = new double[0];
  private int size;
  private int width;

  /**
   * Begins a matrix of zeros.
   *
   * @param size rows
   * @param halfBandwidth diagonals below the main one, at most {@code size - 1}
   */
  public void reset(int size, int halfBandwidth) {
    this.size = size;
    this.width = halfBandwidth + 1;
    int needed = size * width;
    if (band.length < needed) {
      band = new double[Math.max(needed, 2 * band.length)];
    }
    Arrays.fill(band, 0, needed, 0);
  }

  /**
   * Sets the element at ({@code row}, {@code col}), row at or below the diagonal and inside the
   * band.
   */
  public void set(int row, int col, double value) {
    band[col * width + row - col] = value;
  }

  /**
   * Factors in place.
   *
   * @return false if a pivot is not above {@code 1e-14} times the largest diagonal element; the
   *     factor is then useless
   */
  public boolean factor() {
    double largest = 0;
    for (int j = 0; j < size; j++) {
      largest = Math.max(largest, band[j * width]);
    }
    double least = largest * 1e-14;
    for (int j = 0; j < size; j++) {
      int base = j * width;
      double pivot = band[base];
      if (!(pivot > least)) {
        return false;
      }
      double root = Math.sqrt(pivot);
      double inverse = 1 / root;
      int below = Math.min(width - 1, size - 1 - j);
      band[base] = root;
      for (int k = 1; k <= below; k++) {
        band[base + k] *= inverse;
      }
      for (int k = 1; k <= below; k++) {
        subtract(band[base + k], band, base + k, band, (j + k) * width, below - k + 1);
      }
    }
    return true;
  }

  /** Solves A x = rhs in place, after {@link #factor()}. */
  public void solve(double[] rhs) {
    forward(rhs, 0);
    for (int j = size - 1; j >= 0; j--) {
      int base = j * width;
      int below = Math.min(width - 1, size - 1 - j);
      double sum = rhs[j];
      for (int k = 1; k <= below; k++) {
        sum -= band[base + k] * rhs[j + k];
      }
      rhs[j] = sum / band[base];
    }
  }

  /**
   * Element ({@code row}, {@code row}) of the factor; its inverse square, for the last row, is the
   * last diagonal element of the inverse matrix.
   */
  public double pivot(int row) {
    return band[row * width];
  }

  /** Trace of the inverse, after {@link #factor()}; work {@code n^2 w / 2}. */
  public double inverseTrace() {
    if (column.length < size) {
      column = new double[Math.max(size, 2 * column.length)];
    }
    double trace = 0;
    for (int j = 0; j < size; j++) {
      Arrays.fill(column, 0, size, 0);
      column[j] = 1;
      forward(column, j);
      for (int i = j; i < size; i++) {
        trace += column[i] * column[i];
      }
    }
    return trace;
  }

  /**
   * Elements of the inverse inside the band, after {@link #factor()}: element ({@code row}, {@code
   * col}), row at or below the diagonal, at {@code col * (halfBandwidth + 1) + row - col}. Work
   * {@code n w^2} (K. Takahashi, J. Fagan and M. Chin, 1973: from the last column up, each element
   * follows from those to its right).
   */
  public double[] inverseBand() {
    double[] z = new double[size * width];
    for (int j = size - 1; j >= 0; j--) {
      int base = j * width;
      int below = Math.min(width - 1, size - 1 - j);
      for (int i = below; i >= 0; i--) {
        double sum = i == 0 ? 1 / band[base] : 0;
        for (int k = 1; k <= below; k++) {
          int low = Math.max(i, k);
          int high = Math.min(i, k);
          // the element between rows j + i and j + k; for i = 0 it was set just before
          sum -= band[base + k] * z[(j + high) * width + low - high];
        }
        z[base + i] = sum / band[base];
      }
    }
    return z;
  }

  /** Solves L w = rhs in place, after {@link #factor()}, where A = L L'. */
  public void forward(double[] rhs) {
    forward(rhs, 0);
  }

  private void forward(double[] rhs, int first) {
    for (int j = first; j < size; j++) {
      int base = j * width;
      double v = rhs[j] / band[base];
      rhs[j] = v;
      int below = Math.min(width - 1, size - 1 - j);
      subtract(v, band, base + 1, rhs, j + 1, below);
    }
  }

  private static void subtract(double c, double[] x, int xAt, double[] out, int outAt, int count) {
    for (int i = 0; i < count; i++) {
      out[outAt + i] -= c * x[xAt + i];
    }
  }
}
