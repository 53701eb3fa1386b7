package org.groovemend.signal.window;

/** Linear-phase low-pass filters: a sinc under a window. */
public final class WindowedSinc {

  private WindowedSinc() {}

  /**
   * Makes the taps of the window into those of the filter, which add up to 1.
   *
   * @param window an odd number of weights, alike on both sides; overwritten
   * @param cutoff middle of the transition, share of the sampling rate
   * @return {@code window}
   */
  public static double[] lowPass(double[] window, double cutoff) {
    int half = window.length / 2;
    double sum = 0;
    for (int i = -half; i <= half; i++) {
      double x = 2 * Math.PI * cutoff * i;
      window[i + half] *= i == 0 ? 1 : StrictMath.sin(x) / x;
      sum += window[i + half];
    }
    for (int i = 0; i < window.length; i++) {
      window[i] /= sum;
    }
    return window;
  }
}
