package org.groovemend.measure;

/**
 * Weighting curves for noise, by frequency. 0 dB at 1 kHz.
 *
 * <p>Applied to mean-square spectra they give weighted rms levels. The 468 curve is meant for a
 * quasi-peak detector as well, which is not built: say "468-weighted rms" of what it gives.
 */
public enum FrequencyWeighting {
  /** No weighting. */
  NONE {
    @Override
    public double decibels(double hertz) {
      return 0;
    }
  },
  /** A, IEC 61672-1, analytic form of its Annex E. */
  A {
    @Override
    public double decibels(double hertz) {
      return 20 * StrictMath.log10(poles(hertz) / AT_ONE_KILOHERTZ);
    }
  },
  /** ITU-R BS.468-4, by the usual rational fit, within 0.1 dB of the table. */
  ITU_R_468 {
    @Override
    public double decibels(double hertz) {
      double f = hertz;
      double f2 = f * f;
      double even =
          -4.737338981378384e-24 * f2 * f2 * f2
              + 2.043828333606125e-15 * f2 * f2
              - 1.363894795463638e-7 * f2
              + 1;
      double odd =
          1.306612257412824e-19 * f2 * f2 * f
              - 2.118150887518656e-11 * f2 * f
              + 5.559488023498642e-4 * f;
      double response = 1.246332637532143e-4 * f / Math.sqrt(even * even + odd * odd);
      return 18.2 + 20 * StrictMath.log10(response);
    }
  };

  private static final double F1 = 20.598997;
  private static final double F2 = 107.65265;
  private static final double F3 = 737.86223;
  private static final double F4 = 12_194.217;
  private static final double AT_ONE_KILOHERTZ = poles(1000);

  /**
   * Gain at a frequency.
   *
   * @param hertz above 0
   * @return in dB
   */
  public abstract double decibels(double hertz);

  private static double poles(double f) {
    double q = f * f;
    return F4
        * F4
        * q
        * q
        / ((q + F1 * F1) * Math.sqrt((q + F2 * F2) * (q + F3 * F3)) * (q + F4 * F4));
  }
}
