package org.groovemend.simulate;

/** Mains hum: a line and its first harmonics, the same in both channels. */
final class Hum {

  /**
   * Harmonics 1 to 5 in dB re the first: magnetic hum is odd-heavy (common practice, no source).
   */
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
      // a turning phasor: its amplitude drifts by less than 1e-9 in half a minute
      double turnRe = StrictMath.cos(step);
      double turnIm = StrictMath.sin(step);
      double re = amplitude * StrictMath.cos(phase);
      double im = amplitude * StrictMath.sin(phase);
      for (int i = 0; i < into[0].length; i++) {
        for (double[] channel : into) {
          channel[i] += im;
        }
        double next = re * turnRe - im * turnIm;
        im = re * turnIm + im * turnRe;
        re = next;
      }
    }
  }
}
