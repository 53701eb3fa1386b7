package org.groovemend.signal.fft;

import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Discrete Fourier transform of real sequences of even length, in place.
 *
 * <p>X[k] = sum x[n] exp(-2 pi i k n / N), unnormalised; the inverse divides by N. Packing of the
 * transform: {@code a[0]} = Re X[0], {@code a[1]} = Re X[N/2], then {@code a[2k]}, {@code a[2k+1]}
 * = Re, Im X[k] for k = 1 to N/2 - 1. One instance per thread. Allocates nothing after construction
 * as long as the library's thread count is 1 or N is below 8192; the command line sets it to 1 at
 * start.
 */
public final class RealFft {

  private final int size;
  private final DoubleFFT_1D fft;

  /**
   * @param size even, at least 2; powers of two are fastest
   */
  public RealFft(int size) {
    if (size < 2 || size % 2 != 0) {
      throw new IllegalArgumentException("size " + size + " is not even and at least 2");
    }
    this.size = size;
    this.fft = new DoubleFFT_1D(size);
  }

  public int size() {
    return size;
  }

  public void forward(double[] a) {
    fft.realForward(a);
  }

  public void inverse(double[] a) {
    fft.realInverse(a, true);
  }
}
