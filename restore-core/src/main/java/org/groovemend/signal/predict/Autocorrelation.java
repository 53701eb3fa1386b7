package org.groovemend.signal.predict;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;

/**
 * Sums {@code r[k] = sum x[n] x[n+k]} of a windowed piece, directly for few lags and by FFT for
 * many. One instance per thread.
 */
public final class Autocorrelation {
  /** Lags are summed in groups of this many: shorter loops are not made into vector code. */
  private static final int GROUP = 8;

  private final int maxLag;
  private final double[] piece;
  private final double[] sums;
  private final RealFft fft;
  private final RealFft shorter;

  /**
   * @param maxLength longest piece, in samples
   * @param maxLag largest lag
   */
  public Autocorrelation(int maxLength, int maxLag) {
    this.maxLag = maxLag;
    int size = 4;
    while (size < maxLength + maxLag + 1) {
      size *= 2;
    }
    boolean direct = maxLag < 100;
    this.fft = direct ? null : new RealFft(size);
    this.shorter = direct ? null : new RealFft(size / 2);
    this.sums = new double[direct ? (maxLag + GROUP) / GROUP * GROUP : 0];
    this.piece = new double[direct ? maxLength + sums.length + 4 : size];
  }

  /**
   * Computes lags 0 to {@code maxLag}.
   *
   * @param window {@code length} weights, or null for none
   * @param r receives {@code maxLag + 1} sums
   */
  public void compute(double[] x, int offset, int length, double[] window, double[] r) {
    if (window == null) {
      System.arraycopy(x, offset, piece, 0, length);
    } else {
      for (int n = 0; n < length; n++) {
        piece[n] = x[offset + n] * window[n];
      }
    }
    if (fft == null) {
      Arrays.fill(piece, length, piece.length, 0);
      direct(length, r);
    } else {
      boolean fits = length + maxLag < shorter.size();
      transformed(length, fits ? shorter : fft, r);
    }
  }

  private void direct(int length, double[] r) {
    Arrays.fill(sums, 0);
    for (int n = 0; n < length; n += 4) {
      lags(piece, n, piece[n], piece[n + 1], piece[n + 2], piece[n + 3], sums.length, sums);
    }
    System.arraycopy(sums, 0, r, 0, maxLag + 1);
  }

  private static void lags(
      double[] x, int n, double x0, double x1, double x2, double x3, int lags, double[] r) {
    for (int k = 0; k < lags; k++) {
      r[k] += x0 * x[n + k] + x1 * x[n + 1 + k] + (x2 * x[n + 2 + k] + x3 * x[n + 3 + k]);
    }
  }

  private void transformed(int length, RealFft transform, double[] r) {
    int size = transform.size();
    Arrays.fill(piece, length, size, 0);
    transform.forward(piece);
    piece[0] *= piece[0];
    piece[1] *= piece[1];
    for (int i = 2; i < size; i += 2) {
      piece[i] = piece[i] * piece[i] + piece[i + 1] * piece[i + 1];
      piece[i + 1] = 0;
    }
    transform.inverse(piece);
    System.arraycopy(piece, 0, r, 0, maxLag + 1);
  }
}
