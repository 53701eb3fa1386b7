package org.groovemend.surfacenoise;

/** Reads the packing of {@link org.groovemend.signal.fft.RealFft}. */
final class Spectra {

  private Spectra() {}

  /** Squared magnitude of each line. */
  static void power(double[] packed, double[] power) {
    int last = power.length - 1;
    power[0] = packed[0] * packed[0];
    power[last] = packed[1] * packed[1];
    for (int k = 1; k < last; k++) {
      double re = packed[2 * k];
      double im = packed[2 * k + 1];
      power[k] = re * re + im * im;
    }
  }

  /** Multiplies each line by its gain. */
  static void scale(double[] packed, double[] gain) {
    int last = gain.length - 1;
    packed[0] *= gain[0];
    packed[1] *= gain[last];
    for (int k = 1; k < last; k++) {
      packed[2 * k] *= gain[k];
      packed[2 * k + 1] *= gain[k];
    }
  }
}
