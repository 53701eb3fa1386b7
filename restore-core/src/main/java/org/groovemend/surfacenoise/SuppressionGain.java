package org.groovemend.surfacenoise;

import org.groovemend.signal.special.ExponentialIntegral;

/**
 * Amplitude gains for a spectral line, exactly, from the a-priori signal-to-noise ratio xi and the
 * a-posteriori ratio gamma (power of the line over noise power), both as power ratios.
 */
public final class SuppressionGain {

  private SuppressionGain() {}

  /**
   * xi / (1 + xi): least mean square error (R. J. McAulay and M. L. Malpass, IEEE TASSP 28(2),
   * 1980).
   */
  public static double wiener(double xi) {
    return xi / (1 + xi);
  }

  /**
   * Least mean square error of the logarithm of the amplitude: xi/(1+xi) exp(E1(v)/2), v = gamma
   * xi/(1+xi) (Y. Ephraim and D. Malah, IEEE TASSP 33(2), 1985). Above 1 for small gamma; not
   * capped here.
   *
   * @param xi above 0
   * @param gamma above 0
   */
  public static double logAmplitude(double xi, double gamma) {
    double w = wiener(xi);
    return w * StrictMath.exp(0.5 * ExponentialIntegral.e1(w * gamma));
  }
}
