package org.groovemend.simulate;

/**
 * Thirty people clap, three of them near: each clap a burst of noise through the cavity of two
 * palms, 0.6 to 2.2 kHz by their shape, with a rise of 0.1 to 0.4 ms (B. Repp, J. Acoust. Soc. Am.
 * 81(4), 1987, for the spectra and 4 claps a second; from memory).
 */
final class Applause {
  private static final int PEOPLE = 30;
  private static final int NEAR = 3;

  private Applause() {}

  static void play(StereoRoom room, int rate, int frames, Chance chance) {
    for (int p = 0; p < PEOPLE; p++) {
      boolean near = p < NEAR;
      double[] person = new double[frames];
      double pause = chance.uniform(0.2, 0.34);
      double palm = chance.logUniform(600, 2_200);
      double distance = near ? 1 : chance.logUniform(3, 12);
      double at = chance.uniform(0, pause);
      while (at * rate < frames) {
        clap(person, (int) (at * rate), rate, palm * chance.uniform(0.9, 1.1), near, chance);
        at += pause * (1 + 0.05 * chance.gaussian());
      }
      for (int n = 0; n < frames; n++) {
        person[n] /= distance;
      }
      room.add(person, chance.uniform(-1, 1));
    }
  }

  private static void clap(
      double[] into, int start, int rate, double hz, boolean near, Chance chance) {
    Resonator palm = new Resonator(hz, 0.5 * hz, rate);
    Section snap = Section.highPass(2_500, 0.7, rate);
    double level = chance.uniform(0.6, 1);
    double rise = (near ? 0.0001 : 0.0003) * chance.uniform(0.8, 1.4);
    double fall = chance.uniform(0.003, 0.007);
    int count = (int) Math.min(into.length - start, 7 * fall * rate);
    for (int i = 0; i < count; i++) {
      double t = i / (double) rate;
      double force =
          (1 - StrictMath.exp(-t / rise)) * StrictMath.exp(-t / fall) * chance.gaussian();
      double edge = snap.next(force) * StrictMath.exp(-t / 0.0015);
      into[start + i] += level * (2 * palm.next(force) + (near ? 0.4 : 0.1) * edge);
    }
  }
}
