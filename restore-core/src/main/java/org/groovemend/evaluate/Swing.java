package org.groovemend.evaluate;

/**
 * What the arm does after a blow: a swing of falling amplitude and pitch (40 Hz sinking to 12 Hz in
 * about 60 ms, gone in 0.4 s), mostly across the disc's plane, so that the walls have opposite
 * signs. Shape and figures are invented, of the order the trade tells of.
 */
final class Swing {
  private static final double DECAY_SECONDS = 0.06;
  private static final double LONGEST_SECONDS = 0.4;

  private Swing() {}

  /** Samples from the blow on. */
  static double[] samples(double peak, int rate) {
    double[] out = new double[(int) (LONGEST_SECONDS * rate)];
    double phase = 0;
    for (int n = 0; n < out.length; n++) {
      double t = n / (double) rate;
      phase += 2 * Math.PI * (12 + 28 * StrictMath.exp(-t / DECAY_SECONDS)) / rate;
      // ends in silence, not in a step
      double fade = 1 - t / LONGEST_SECONDS;
      out[n] = peak * fade * StrictMath.exp(-t / DECAY_SECONDS) * StrictMath.sin(phase);
    }
    return out;
  }

  static double wall(int channel) {
    return channel == 0 ? 1 : -0.8;
  }
}
