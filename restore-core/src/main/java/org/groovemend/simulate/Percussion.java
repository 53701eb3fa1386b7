package org.groovemend.simulate;

/**
 * Wood block, brush and a damped cymbal: the sharp attacks that a click detector must leave alone.
 */
final class Percussion {

  private Percussion() {}

  static void block(double[] into, int start, int rate, double level) {
    int frames = Math.min((int) (0.12 * rate), into.length - start);
    for (int i = 0; i < frames; i++) {
      double t = i / (double) rate;
      double tone =
          StrictMath.sin(2 * Math.PI * 980 * t)
              + 0.55 * StrictMath.sin(2 * Math.PI * 2_130 * t)
              + 0.2 * StrictMath.sin(2 * Math.PI * 4_710 * t);
      into[start + i] +=
          level * tone * StrictMath.exp(-t / 0.014) * (1 - StrictMath.exp(-t / 0.0002));
    }
  }

  /**
   * Filtered noise with a decay: long and dark for a brush, short and bright for a damped cymbal.
   */
  static void noise(
      double[] into,
      int start,
      int rate,
      double highPassHz,
      double decaySeconds,
      double level,
      Chance chance) {
    int frames = Math.min((int) (7 * decaySeconds * rate), into.length - start);
    Section high = Section.highPass(highPassHz, 0.8, rate);
    double fall = StrictMath.exp(-1 / (decaySeconds * rate));
    double rise = 1 - StrictMath.exp(-1 / (0.0006 * rate));
    double decay = 1;
    double attack = 0;
    for (int i = 0; i < frames; i++) {
      attack += rise * (1 - attack);
      into[start + i] += level * attack * decay * high.next(chance.uniform(-1, 1));
      decay *= fall;
    }
  }
}
