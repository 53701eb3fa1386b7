package org.groovemend.walls;

import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * Spectra of both walls and the spectrum they share, summed over frames. Sums of the left wall's
 * spectrum times the conjugate of the right wall's: a right wall that comes d samples behind turns
 * it by +omega d. Exchanging the walls gives the exact conjugate. Not for several threads.
 */
final class CrossSpectrum {
  final double[] left;
  final double[] right;
  final double[] real;
  final double[] imaginary;
  private final double[] window;
  private final double[] first;
  private final double[] second;
  private final RealFft fft;
  private int frames;

  CrossSpectrum(int length) {
    int bins = length / 2 + 1;
    left = new double[bins];
    right = new double[bins];
    real = new double[bins];
    imaginary = new double[bins];
    window = WindowShape.HANN.periodic(length);
    first = new double[length];
    second = new double[length];
    fft = new RealFft(length);
  }

  void clear() {
    java.util.Arrays.fill(left, 0);
    java.util.Arrays.fill(right, 0);
    java.util.Arrays.fill(real, 0);
    java.util.Arrays.fill(imaginary, 0);
    frames = 0;
  }

  int frames() {
    return frames;
  }

  /** Adds the frame that begins at {@code at} of both channels. */
  void add(double[][] x, int at) {
    for (int i = 0; i < window.length; i++) {
      first[i] = window[i] * x[0][at + i];
      second[i] = window[i] * x[1][at + i];
    }
    fft.forward(first);
    fft.forward(second);
    frames++;
    for (int k = 1; k < left.length - 1; k++) {
      double a = first[2 * k];
      double b = first[2 * k + 1];
      double c = second[2 * k];
      double d = second[2 * k + 1];
      left[k] += a * a + b * b;
      right[k] += c * c + d * d;
      real[k] += a * c + b * d;
      imaginary[k] += b * c - a * d;
    }
  }
}
