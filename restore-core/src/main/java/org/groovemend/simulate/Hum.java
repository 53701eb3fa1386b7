package org.groovemend.simulate;

/** Mains hum: a line and its first harmonics, the same in both channels. */
final class Hum {

  /** Harmonics 1 to 5 in dB re the first: magnetic hum is odd-heavy (common practice, no source). */
  private static final double[] HARMONIC_DB = {0, -14, -6, -24, -12};

  private Hum() {}

  /**
   * @param mainsHz 50 or 60
   * @param dbfs amplitude of the first line, dB re 1.0
   */
  static void addTo(double[][] into, int rate, double mainsHz, double dbfs, Chance chance) {
    for (int h = 1; h <= HARMONIC_DB.length; h++) {
      double amplitude = StrictMath.pow(10, (dbfs + HARMONIC_DB[h - 1]) / 20);
      double phase = chance.uniform(0, 2 * Math.PI);
      double step = 2 * Math.PI * mainsHz * h / rate;
      for (int i = 0; i < into[0].length; i++) {
        double y = amplitude * StrictMath.sin(phase + step * i);
        for (double[] channel : into) {
          channel[i] += y;
        }
      }
    }
  }
}
