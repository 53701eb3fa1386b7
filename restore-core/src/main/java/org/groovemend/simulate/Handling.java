package org.groovemend.simulate;

/** What the hand does to the sound: the stylus lands, and is lifted. */
final class Handling {

  private Handling() {}

  /**
   * Impact, a slide into the groove, and the arm swinging out: a decaying low tone whose pitch
   * sinks, with a short burst in front; the movement is vertical, so the walls have opposite signs.
   *
   * @param at frame of the contact
   * @param peak of the swing, full scale 1.0
   * @param burstSeconds length of the rough front
   * @return frames until the swing has died away to a thousandth
   */
  static int thump(
      double[][] into, int at, int rate, double peak, double burstSeconds, Chance chance) {
    double decay = 0.055;
    int frames = Math.min((int) (decay * 6.9 * rate), into[0].length - at);
    double phase = 0;
    Section soften = Section.lowPass(3_500, 0.7, rate);
    for (int i = 0; i < frames; i++) {
      double t = i / (double) rate;
      phase += 2 * Math.PI * (14 + 55 * StrictMath.exp(-t / 0.06)) / rate;
      double swing =
          StrictMath.sin(phase) * StrictMath.exp(-t / decay) * (1 - StrictMath.exp(-t / 0.002));
      double burst = 0.45 * chance.gaussian() * StrictMath.exp(-t / burstSeconds);
      double rough = soften.next(burst);
      into[0][at + i] += peak * (swing + rough);
      into[1][at + i] += peak * (-0.8 * swing + 0.7 * rough);
    }
    return frames;
  }
}
