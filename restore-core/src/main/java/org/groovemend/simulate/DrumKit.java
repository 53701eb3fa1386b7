package org.groovemend.simulate;

/**
 * Bass drum, snare with rim shots, hi-hat: skins by their lowest modes, pitch sinking after the
 * blow, the beater's tick, wires and cymbals as noise. All figures invented, of the order of such
 * instruments.
 */
final class DrumKit {
  private static final double BEAT = 0.27;

  private DrumKit() {}

  static void play(StereoRoom room, int rate, int frames, Chance chance) {
    double[] low = new double[frames];
    double[] snare = new double[frames];
    double[] hat = new double[frames];
    for (int k = 0; (k * BEAT + 0.2) * rate < frames; k++) {
      int at = (int) ((0.1 + k * BEAT + 0.003 * chance.gaussian()) * rate);
      if (k % 4 == 0 || k % 8 == 3) {
        kick(low, at, rate, chance.uniform(0.8, 1), chance);
      }
      if (k % 4 == 2) {
        snare(snare, at, rate, chance.uniform(0.8, 1), k % 8 == 6, chance);
      }
      int off = at + (int) (0.62 * BEAT * rate);
      hat(hat, at, rate, 0.3 * chance.uniform(0.7, 1), 0.03, chance);
      if (off < frames) {
        hat(hat, off, rate, 0.2 * chance.uniform(0.7, 1), k % 4 == 3 ? 0.12 : 0.025, chance);
      }
    }
    room.add(low, 0);
    room.add(snare, -0.3);
    room.add(hat, 0.5);
  }

  private static void kick(double[] into, int start, int rate, double level, Chance chance) {
    Resonator beater = new Resonator(3_200, 2_000, rate);
    double phase = 0;
    for (int i = 0; i < Math.min(into.length - start, (int) (0.45 * rate)); i++) {
      double t = i / (double) rate;
      phase += 2 * Math.PI * (52 + 75 * StrictMath.exp(-t / 0.022)) / rate;
      double skin = StrictMath.exp(-t / 0.11) * (1 - StrictMath.exp(-t / 0.0008));
      double tick = StrictMath.exp(-t / 0.0012) * (1 - StrictMath.exp(-t / 0.0001));
      into[start + i] +=
          level * (skin * StrictMath.sin(phase) + 0.9 * beater.next(tick * chance.gaussian()));
    }
  }

  private static void snare(
      double[] into, int start, int rate, double level, boolean rim, Chance chance) {
    Section wires = Section.highPass(1_800, 0.8, rate);
    Resonator stick = new Resonator(1_750, 250, rate);
    for (int i = 0; i < Math.min(into.length - start, (int) (0.3 * rate)); i++) {
      double t = i / (double) rate;
      double attack = 1 - StrictMath.exp(-t / 0.00012);
      double skin =
          StrictMath.sin(2 * Math.PI * 187 * t) + 0.6 * StrictMath.sin(2 * Math.PI * 331 * t);
      double noise = wires.next(chance.uniform(-1, 1));
      double y = attack * (0.5 * skin * StrictMath.exp(-t / 0.05));
      y += attack * 0.5 * noise * (StrictMath.exp(-t / 0.06) + StrictMath.exp(-t / 0.004));
      if (rim) {
        y += 6 * stick.next(attack * StrictMath.exp(-t / 0.0004) * chance.uniform(0.6, 1));
      }
      into[start + i] += level * y;
    }
  }

  private static void hat(
      double[] into, int start, int rate, double level, double fall, Chance chance) {
    Section high = Section.highPass(6_500, 1.1, rate);
    for (int i = 0; i < Math.min(into.length - start, (int) (7 * fall * rate)); i++) {
      double t = i / (double) rate;
      double ring = (1 - StrictMath.exp(-t / 0.00008)) * StrictMath.exp(-t / fall);
      into[start + i] += level * ring * high.next(chance.uniform(-1, 1));
    }
  }
}
