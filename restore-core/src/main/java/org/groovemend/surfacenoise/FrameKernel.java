package org.groovemend.surfacenoise;

import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * How the lines of long frames add up to a line of shorter ones: the power spectrum of the shorter
 * window, sampled at the longer frames' spacing. Mean power of noise goes over that way (P. D.
 * Welch 1967, the expectation of a periodogram is the density convolved with the window's
 * spectrum).
 */
final class FrameKernel {

  /** Lines of the shorter frame that its window reaches; the rest holds under 1e-6 of the power. */
  private static final int REACH = 12;

  private FrameKernel() {}

  /** Weights of line j, from 0 up, either side of the middle. */
  static double[] of(int length, int shorter) {
    double[] padded = new double[length];
    double[] window = WindowShape.SQRT_HANN.periodic(shorter);
    System.arraycopy(window, 0, padded, 0, shorter);
    new RealFft(length).forward(padded);
    double[] power = new double[length / 2 + 1];
    Spectra.power(padded, power);
    int ratio = length / shorter;
    double[] kernel = new double[Math.min(REACH * ratio, length / 2) + 1];
    double sum = 0;
    for (int j = 0; j < kernel.length; j++) {
      kernel[j] = power[j];
      sum += j == 0 ? power[j] : 2 * power[j];
    }
    for (int j = 0; j < kernel.length; j++) {
      kernel[j] /= sum * ratio; // power of a line goes as the length of the frame
    }
    return kernel;
  }

  /** Lines of the shorter frame. Beyond either end the spectrum of a real signal is its mirror. */
  static double[] seen(double[] lines, double[] kernel, int ratio) {
    int last = lines.length - 1;
    double[] out = new double[last / ratio + 1];
    for (int k = 0; k < out.length; k++) {
      double sum = 0;
      for (int j = 1 - kernel.length; j < kernel.length; j++) {
        int at = Math.abs(k * ratio + j);
        sum += kernel[Math.abs(j)] * lines[at > last ? 2 * last - at : at];
      }
      out[k] = sum;
    }
    return out;
  }
}
