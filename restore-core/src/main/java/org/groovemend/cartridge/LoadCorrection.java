package org.groovemend.cartridge;

import java.util.Locale;

/**
 * What would have to be added to a capture through one load, so that it were as through another.
 *
 * @param actual as it was captured
 * @param ideal as it should have been; null for no change of the treble at all
 * @param mostDb most gain that may be given, above 0
 * @param upToHertz how far up it is asked for
 */
public record LoadCorrection(LoadedCoil actual, LoadedCoil ideal, double mostDb, double upToHertz) {

  private static final int POINTS = 400;
  private static final double FROM_HERTZ = 20;

  /**
   * @throws IllegalArgumentException if it would need more gain than is allowed; the message says
   *     how much and where
   */
  public LoadCorrection {
    if (!(mostDb > 0 && mostDb <= 20)) {
      throw new IllegalArgumentException("a most gain of " + mostDb + " dB is not above 0 to 20");
    }
    if (!(upToHertz >= 1000 && upToHertz <= 200_000)) {
      throw new IllegalArgumentException(
          "an upper end of " + upToHertz + " Hz is not 1000 to 200000");
    }
    double worst = 0;
    double at = 0;
    for (int i = 0; i <= POINTS; i++) {
      double hertz = FROM_HERTZ * StrictMath.pow(upToHertz / FROM_HERTZ, i / (double) POINTS);
      double db = gainDb(actual, ideal, hertz);
      if (db > worst) {
        worst = db;
        at = hertz;
      }
    }
    if (worst > mostDb) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "the correction would need %.1f dB at %.0f Hz, more than the %.1f dB allowed: it would lift noise more than"
                  + " music; capture again with less capacitance, or state an ideal load nearer to the actual one",
              worst,
              at,
              mostDb));
    }
  }

  /** Gain of the correction in dB re 1 kHz. */
  public double gainDb(double hertz) {
    return gainDb(actual, ideal, hertz);
  }

  /** Squared magnitude of the correction re 0 Hz. */
  public double squaredMagnitude(double hertz) {
    return (ideal == null ? 1 : ideal.squaredMagnitude(hertz)) / actual.squaredMagnitude(hertz);
  }

  private static double gainDb(LoadedCoil actual, LoadedCoil ideal, double hertz) {
    return (ideal == null ? 0 : ideal.gainDb(hertz)) - actual.gainDb(hertz);
  }
}
