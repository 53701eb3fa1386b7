package org.groovemend.simulate;

/**
 * Two pairs of castanets, strokes and rolls over a quiet low drone: wooden shells meet for a tenth
 * of a millisecond and ring for a few. Frequencies and decays are invented, of the order that small
 * hard shells have.
 */
final class Castanets {
  private static final double[] HERTZ = {1_310, 2_270, 3_640, 5_230, 7_410, 10_150, 13_400};
  private static final double BEAT = 0.36;

  private Castanets() {}

  static void play(StereoRoom room, int rate, int frames, Chance chance) {
    double[][] hands = new double[2][frames];
    int beat = 0;
    for (double at = 0.15; (at + BEAT) * rate < frames; at += BEAT) {
      boolean roll = beat % 4 == 3;
      int strokes = roll ? 12 : beat % 2 == 0 ? 1 : 3;
      for (int k = 0; k < strokes; k++) {
        double when = at + k * BEAT / Math.max(3, strokes) + 0.002 * chance.gaussian();
        double level = (k == 0 ? 1 : 0.55) * chance.uniform(0.7, 1.1);
        stroke(hands[k % 2], (int) (when * rate), rate, k % 2 == 0 ? 1 : 1.13, level, chance);
      }
      beat++;
    }
    room.add(hands[0], -0.5);
    room.add(hands[1], 0.6);
    double[] drone = new double[frames];
    for (double at = 0; at * rate < frames; at += 4 * BEAT) {
      PluckedString.BASS.add(drone, (int) (at * rate), rate, 98, 3.8 * BEAT, 0.25, chance);
    }
    room.add(drone, 0);
  }

  private static void stroke(
      double[] into, int start, int rate, double pitch, double level, Chance chance) {
    // the shells bounce: a second, weaker contact after about a millisecond
    contact(into, start, rate, pitch, level, chance);
    int after = (int) (chance.uniform(0.0007, 0.0016) * rate);
    contact(into, start + after, rate, pitch, 0.3 * level, chance);
  }

  private static void contact(
      double[] into, int start, int rate, double pitch, double level, Chance chance) {
    int count = Math.min(into.length - start, (int) (0.06 * rate));
    double touch = chance.uniform(0.00006, 0.00012);
    for (int m = 0; m < HERTZ.length; m++) {
      double hz = HERTZ[m] * pitch * chance.uniform(0.995, 1.005);
      double fall = 0.009 / (1 + 0.5 * m);
      double weight = level * chance.uniform(0.6, 1) / (1 + 0.35 * m);
      Resonator mode = new Resonator(hz, 1 / (Math.PI * fall), rate);
      int length = (int) (2 * touch * rate);
      for (int i = 0; i < count; i++) {
        double blow = i < length ? 1 - StrictMath.cos(2 * Math.PI * (i + 1) / (length + 1)) : 0;
        double size = 0.5 * fall * rate / Math.max(1, length);
        into[start + i] += weight * mode.next(blow * size);
      }
    }
  }
}
