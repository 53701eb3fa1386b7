package org.groovemend.simulate;

/**
 * A harpsichord by addition: an ideal string plucked near its end pulls at the bridge in steps, all
 * partials of one phase (N. Fletcher and T. Rossing, The Physics of Musical Instruments, chapter 2;
 * from memory), after the quill has bent it; a soundboard of many modes radiates it, part of it at
 * once. Two choirs, the second an octave higher and a few milliseconds later; a quill's tick before
 * and a jack's fall after each note. Figures invented.
 */
final class Harpsichord {
  private static final double PLUCKED_AT = 0.11;
  private static final double HIGHEST_HZ = 16_000;
  private static final double STIFFNESS = 3e-5;
  private static final double BEAT = 0.13;
  private static final double BEND_SECONDS = 0.006;
  private static final int MODES = 48;

  /** Share of the strings' force that is heard without the soundboard's ringing. */
  private static final double AT_ONCE = 0.25;

  /** Two bars of an invented figure, semitones above C2; -1 rests. */
  private static final int[] FIGURE = {
    24, 28, 31, 36, 40, 36, 31, 28, 26, 29, 33, 38, 41, 38, 33, -1, 23, 26, 31, 35, 43, 35, 31, 26,
    24, 36, 40, 43, 48, -1, 12, -1
  };

  private Harpsichord() {}

  static void play(StereoRoom room, int rate, int frames, Chance chance) {
    double[] strings = new double[frames];
    double[] wood = new double[frames];
    for (int k = 0; (k * BEAT + 0.3) * rate < frames; k++) {
      int key = FIGURE[k % FIGURE.length];
      if (key < 0) {
        continue;
      }
      double at = 0.1 + k * BEAT + 0.003 * chance.gaussian();
      double hz = 65.406 * StrictMath.pow(2, key / 12.0);
      double held = BEAT * (k % 8 == 0 ? 5 : 1.6);
      int start = (int) (at * rate);
      tick(wood, start - (int) (0.001 * rate), rate, 4_000, 0.0006, 0.12, chance);
      pluck(strings, start, rate, hz, held, 0.5 * chance.uniform(0.9, 1.1));
      pluck(strings, start + (int) (0.004 * rate), rate, 2.003 * hz, held, 0.3);
      if (k % 8 == 0) {
        pluck(strings, start + (int) (0.009 * rate), rate, 0.5 * hz, 2 * held, 0.5);
      }
      tick(wood, start + (int) (held * rate), rate, 900, 0.004, 0.1, chance);
    }
    room.add(soundboard(strings, rate, chance), -0.25);
    room.add(wood, 0.1);
  }

  private static double[] soundboard(double[] force, int rate, Chance chance) {
    Resonator[] modes = new Resonator[MODES];
    double[] weights = new double[MODES];
    for (int m = 0; m < MODES; m++) {
      double hz = 85 * StrictMath.pow(8_500 / 85.0, (m + chance.uniform(-0.3, 0.3)) / (MODES - 1));
      modes[m] = new Resonator(hz, 12 + 0.03 * hz, rate);
      weights[m] = (m % 2 == 0 ? 1 : -1) * chance.uniform(0.3, 1);
    }
    Section direct = Section.highPass(400, 0.7, rate);
    double[] heard = new double[force.length];
    for (int n = 0; n < force.length; n++) {
      double y = AT_ONCE * direct.next(force[n]);
      for (int m = 0; m < MODES; m++) {
        y += weights[m] * modes[m].next(force[n]);
      }
      heard[n] = y;
    }
    return heard;
  }

  private static void pluck(
      double[] into, int start, int rate, double hz, double held, double level) {
    int partials = (int) Math.min(60, HIGHEST_HZ / hz);
    int count = Math.min(into.length - start, (int) ((held + 0.12) * rate));
    int damped = (int) (held * rate);
    double bent = 0;
    for (int k = 1; k <= partials; k++) {
      double f = k * hz * Math.sqrt(1 + STIFFNESS * k * k);
      if (f > HIGHEST_HZ) {
        break;
      }
      double angle = 2 * Math.PI * f / rate;
      // the quill is not a point: partials above about 6 kHz are weaker
      double weight =
          level * StrictMath.sin(Math.PI * k * PLUCKED_AT) / (0.4 * k) / (1 + f * f / 36e6);
      double fall = StrictMath.exp(-1 / (rate * 0.9 / (1 + f / 1_500)));
      double after = StrictMath.exp(-1 / (rate * 0.02));
      double re = weight;
      bent += weight;
      double im = 0;
      double cos = StrictMath.cos(angle);
      double sin = StrictMath.sin(angle);
      for (int i = 0; i < count; i++) {
        into[start + i] += re;
        double shrink = i < damped ? fall : after;
        double next = shrink * (re * cos - im * sin);
        im = shrink * (re * sin + im * cos);
        re = next;
      }
    }
    // before it lets go, the quill bends the string
    int bend = Math.min(start, (int) (BEND_SECONDS * rate));
    for (int i = 1; i <= bend; i++) {
      double x = 1 - i / (double) bend;
      into[start - i] += bent * x * x;
    }
  }

  private static void tick(
      double[] into, int start, int rate, double hz, double fall, double level, Chance chance) {
    Resonator wood = new Resonator(hz, 0.6 * hz, rate);
    for (int i = 0; i < Math.min(into.length - start, (int) (8 * fall * rate)); i++) {
      double decay = StrictMath.exp(-i / (fall * rate));
      into[start + i] += level * 3 * wood.next(decay * chance.gaussian());
    }
  }
}
