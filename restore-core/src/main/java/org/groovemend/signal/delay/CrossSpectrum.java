package org.groovemend.signal.delay;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * Spectra of two signals and the spectrum they share, summed over Hann frames. Sums of the first
 * one's spectrum times the conjugate of the second's: a second signal that comes d samples behind
 * turns it by +omega d. Exchanging the signals gives the exact conjugate. Arrays that are given out
 * are its own, to be read only. Not for several threads.
 */
public final class CrossSpectrum {
  private final double[] first;
  private final double[] second;
  private final double[] real;
  private final double[] imaginary;
  private final double[] window;
  private final double[] one;
  private final double[] other;
  private final RealFft fft;
  private int frames;

  /**
   * Holds nothing yet.
   *
   * @param length samples of a frame
   */
  public CrossSpectrum(int length) {
    int bins = length / 2 + 1;
    first = new double[bins];
    second = new double[bins];
    real = new double[bins];
    imaginary = new double[bins];
    window = WindowShape.HANN.periodic(length);
    one = new double[length];
    other = new double[length];
    fft = new RealFft(length);
  }

  /** Forgets all frames. */
  public void clear() {
    Arrays.fill(first, 0);
    Arrays.fill(second, 0);
    Arrays.fill(real, 0);
    Arrays.fill(imaginary, 0);
    frames = 0;
  }

  /** Frames summed. */
  public int frames() {
    return frames;
  }

  /** Power of the first signal by line; 0 in the first and last line. */
  public double[] first() {
    return first;
  }

  /** Power of the second signal by line. */
  public double[] second() {
    return second;
  }

  /** Real part of what they share. */
  public double[] real() {
    return real;
  }

  /** Imaginary part of what they share. */
  public double[] imaginary() {
    return imaginary;
  }

  /** Adds the frames of two signals that begin at {@code at}. */
  public void add(double[] a, double[] b, int at) {
    for (int i = 0; i < window.length; i++) {
      one[i] = window[i] * a[at + i];
      other[i] = window[i] * b[at + i];
    }
    fft.forward(one);
    fft.forward(other);
    frames++;
    for (int k = 1; k < first.length - 1; k++) {
      double p = one[2 * k];
      double q = one[2 * k + 1];
      double r = other[2 * k];
      double s = other[2 * k + 1];
      first[k] += p * p + q * q;
      second[k] += r * r + s * s;
      real[k] += p * r + q * s;
      imaginary[k] += q * r - p * s;
    }
  }
}
