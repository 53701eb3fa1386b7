package org.groovemend.signal.window;

import org.groovemend.signal.special.Bessel;

/**
 * Linear-phase low-pass filters: a sinc under a Kaiser window (J. Kaiser, in Kuo and Kaiser, System
 * Analysis by Digital Computer, 1966).
 */
public final class KaiserLowPass {

  private KaiserLowPass() {}

  /**
   * Taps needed on each side of the middle one.
   *
   * @param stopDb attenuation of the stop band, above 50; the pass band ripples as little
   * @param width of the transition, share of the sampling rate
   */
  public static int half(double stopDb, double width) {
    return (int) Math.ceil((stopDb - 7.95) / (14.36 * width) / 2);
  }

  /**
   * The {@code 2 * half + 1} taps; they add up to 1.
   *
   * @param cutoff middle of the transition, share of the sampling rate
   * @param stopDb attenuation of the stop band, above 50
   */
  public static double[] design(int half, double cutoff, double stopDb) {
    double beta = beta(stopDb);
    double top = Bessel.logI0(beta);
    double[] window = new double[2 * half + 1];
    for (int i = -half; i <= half; i++) {
      window[i + half] = weight(i / (half + 1.0), beta, top);
    }
    return WindowedSinc.lowPass(window, cutoff);
  }

  /** Shape of the window for an attenuation above 50 dB. */
  static double beta(double stopDb) {
    return 0.1102 * (stopDb - 8.7);
  }

  /**
   * The window.
   *
   * @param at place, -1 to 1 from end to end
   * @param top {@code logI0(beta)}
   */
  static double weight(double at, double beta, double top) {
    return StrictMath.exp(Bessel.logI0(beta * Math.sqrt(1 - at * at)) - top);
  }
}
