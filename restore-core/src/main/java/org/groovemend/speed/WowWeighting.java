package org.groovemend.speed;

/**
 * How much a sway of the pitch is heard: the weighting of wow and flutter of IEC 60386 (DIN 45507,
 * AES6), read in a secondary copy; between its points the decibels are taken linear in the
 * logarithm of the frequency, as the tables of this project are. Detector and tolerances of the
 * standard were not read and are not here: figures are weighted peaks of sinusoids.
 */
public final class WowWeighting {
  private static final double[] HERTZ = {
    0.1, 0.2, 0.315, 0.4, 0.63, 0.8, 1.0, 1.6, 2.0, 4.0, 6.3, 10, 20, 40, 63, 100, 200
  };
  private static final double[] DECIBELS = {
    -48.0, -30.6, -19.7, -15.0, -8.4, -6.0, -4.2, -1.8, -0.9, 0, -0.9, -2.1, -5.9, -10.4, -14.2,
    -17.3, -23.0
  };

  private WowWeighting() {}

  /**
   * Response re 4 Hz, dB.
   *
   * @param hertz of the sway, 0.1 to 200
   */
  public static double decibels(double hertz) {
    int last = HERTZ.length - 1;
    if (!(hertz >= HERTZ[0] && hertz <= HERTZ[last])) {
      throw new IllegalArgumentException(
          "a sway of " + hertz + " Hz is outside the table, " + HERTZ[0] + " to " + HERTZ[last]);
    }
    int i = 0;
    while (i < last - 1 && hertz > HERTZ[i + 1]) {
      i++;
    }
    double share = StrictMath.log(hertz / HERTZ[i]) / StrictMath.log(HERTZ[i + 1] / HERTZ[i]);
    return DECIBELS[i] + share * (DECIBELS[i + 1] - DECIBELS[i]);
  }

  /** Weighted peak deviation at a moment, as a share: at most, the parts adding up. */
  public static double weightedPeak(Wow wow, double seconds) {
    double sum = 0;
    for (Wow.Part part : wow.parts()) {
      double hertz = part.order() / wow.turnSeconds();
      sum += part.amplitudeMm() * StrictMath.pow(10, decibels(hertz) / 20);
    }
    return sum / wow.radiusMm(seconds);
  }
}
