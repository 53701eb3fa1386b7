package org.groovemend.simulate;

/**
 * Hum as a long transfer has it: ten multiples of the mains frequency, odd ones stronger, each
 * beating slowly by up to a fifth, all of them moving with one frequency that is a little off and
 * drifts. Levels and rates are invented.
 */
public final class WanderingHum {
  private static final int LINES = 10;

  /** Fall from multiple to multiple; even ones lie lower still. */
  private static final double FALL_DB = 2.5;

  private static final double EVEN_DB = 5;

  private WanderingHum() {}

  /**
   * Adds hum to both walls, the right one a little weaker.
   *
   * @param into planar
   * @param dbfs amplitude of the first line on the left, dB re 1.0
   * @param seed even for 60 Hz, odd for 50 Hz; also sets error (within 0.6 %), drift (within 0.2 %
   *     over the length) and beats
   */
  public static void addTo(double[][] into, int sampleRateHz, double dbfs, long seed) {
    Chance chance = new Chance(seed);
    double hertz = (seed % 2 == 0 ? 60 : 50) * (1 + chance.uniform(-0.006, 0.006));
    double drift = chance.uniform(-0.002, 0.002);
    int frames = into[0].length;
    for (int k = 1; k <= LINES; k++) {
      double fall = FALL_DB * (k - 1) + (k % 2 == 0 ? EVEN_DB : 0);
      double amplitude = StrictMath.pow(10, (dbfs - fall) / 20);
      double beats = chance.uniform(0.05, 0.15);
      double swing = chance.uniform(0.1, 0.2);
      double begin = chance.uniform(0, 1);
      for (int n = 0; n < frames; n++) {
        double t = n / (double) sampleRateHz;
        double cycles = k * hertz * t * (1 + drift * (0.5 * n / frames - 0.5)) + begin;
        double size = amplitude * (1 + swing * StrictMath.sin(2 * Math.PI * (beats * t + begin)));
        double line = size * StrictMath.cos(2 * Math.PI * (cycles - Math.rint(cycles)));
        for (int c = 0; c < into.length; c++) {
          into[c][n] += c == 0 ? line : 0.8 * line;
        }
      }
    }
  }
}
