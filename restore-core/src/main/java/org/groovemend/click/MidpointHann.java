package org.groovemend.click;

/**
 * Hann window taken at the middles of its steps, so that no sample of a piece gets the weight 0.
 */
final class MidpointHann {
  private MidpointHann() {}

  /** Writes the weights of a piece of {@code length} samples to the front of {@code window}. */
  static void fill(double[] window, int length) {
    for (int n = 0; n < length; n++) {
      window[n] = 0.5 - 0.5 * StrictMath.cos(2 * Math.PI * (n + 0.5) / length);
    }
  }
}
