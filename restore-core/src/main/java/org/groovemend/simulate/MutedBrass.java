package org.groovemend.simulate;

/**
 * A trumpet with a straight mute, played loud: lips and bore steepen each wave until it is one
 * sharp pulse a period, always of one sign, which rings through the mute (A. Hirschberg and others,
 * J. Acoust. Soc. Am. 99(3), 1996, for the steepening). The bell radiates the change of pressure up
 * to its cutoff and the pressure itself above (elementary); formants invented. Some notes growl.
 */
final class MutedBrass {
  private static final double BEAT = 0.24;
  private static final int OVERSAMPLED = 4;

  /** Corner of the bell with a mute in it; an open one's is about half that. */
  private static final double BELL_HZ = 2_800;

  /** How near to a shock; at 0.93 a pulse is about a hundredth of a period wide. */
  private static final double STEEPEST = 0.93;

  /** An invented line: semitones above A3, length in beats; below 0 rests. */
  private static final int[][] LINE = {
    {3, 2}, {6, 1}, {7, 1}, {10, 3}, {-1, 1}, {12, 1}, {10, 1}, {7, 2}, {6, 1}, {3, 1}, {0, 3},
    {-1, 1}, {15, 2}, {14, 1}, {12, 1}, {10, 1}, {7, 1}, {3, 4}
  };

  private MutedBrass() {}

  static void play(StereoRoom room, int rate, int frames, Chance chance) {
    double[] horn = new double[frames];
    double at = 0.1;
    for (int k = 0; at * rate < frames; k++) {
      int[] note = LINE[k % LINE.length];
      double seconds = note[1] * BEAT;
      if (note[0] >= 0) {
        double hz = 220 * StrictMath.pow(2, note[0] / 12.0);
        blow(horn, (int) (at * rate), rate, hz, 0.93 * seconds, k % 4 == 3, chance);
      }
      at += seconds;
    }
    room.add(horn, 0.2);
  }

  private static void blow(
      double[] into, int start, int rate, double hz, double seconds, boolean growl, Chance chance) {
    Resonator mute = new Resonator(1_850, 350, rate);
    Resonator rim = new Resonator(3_300, 900, rate);
    Section bell = Section.highPass(700, 0.7, rate);
    // sharper than a sample: made at a higher rate, so that no pulse depends on where samples fall
    Section air = Section.lowPass(13_000, 0.5412, OVERSAMPLED * (double) rate);
    Section throat = Section.lowPass(13_000, 1.3066, OVERSAMPLED * (double) rate);
    int count = Math.min(into.length - start, (int) (seconds * rate));
    double phase = 0;
    double jitter = 1;
    double shimmer = 1;
    double last = 0;
    double radiated = 0;
    double bellStep = 1 - StrictMath.exp(-2 * Math.PI * BELL_HZ / (OVERSAMPLED * (double) rate));
    double per = OVERSAMPLED * rate / (2 * Math.PI * hz);
    for (int i = 0; i < count; i++) {
      double t = i / (double) rate;
      double loud = (1 - StrictMath.exp(-t / 0.012)) * Math.min(1, (seconds - t) / 0.03);
      if (growl) {
        loud *= 0.65 + 0.35 * StrictMath.sin(2 * Math.PI * 27 * t);
      }
      double breath = 0.02 * chance.gaussian() * loud;
      double driven = 0;
      for (int k = 0; k < OVERSAMPLED; k++) {
        phase += 2 * Math.PI * hz * jitter / rate / OVERSAMPLED;
        if (phase >= 2 * Math.PI) {
          phase -= 2 * Math.PI;
          jitter = 1 + 0.004 * chance.gaussian();
          shimmer = 1 + 0.06 * chance.gaussian();
        }
        // the louder, the nearer to a shock
        double wave = steepened(phase, STEEPEST * loud);
        double pulse = (wave - last) * per;
        last = wave;
        radiated += bellStep * (loud * shimmer * pulse + breath - radiated);
        driven = throat.next(air.next(radiated));
      }
      into[start + i] +=
          0.3 * (mute.next(driven) * 1.4 + rim.next(driven) * 0.8 + 0.45 * bell.next(driven));
    }
  }

  /** sin of the angle a that solves a - steep sin(a) = phase: a wave whose crests run ahead. */
  private static double steepened(double phase, double steep) {
    double x = phase + Math.PI;
    double a = x + steep * StrictMath.sin(x) * 0.8;
    for (int k = 0; k < 8; k++) {
      double slope = Math.max(0.02, 1 - steep * StrictMath.cos(a));
      double step = (a - steep * StrictMath.sin(a) - x) / slope;
      a -= Math.max(-0.5, Math.min(0.5, step));
    }
    return StrictMath.sin(a);
  }
}
