package org.groovemend.audit;

/**
 * What the whole of the derivative's channel is of the original: a mixture, and a gain or a filter.
 *
 * @param mix of the original's channels
 * @param gain flat gain; negative if upside down
 * @param taps the filter, odd in number, the middle one at no delay; null where the gain suffices
 * @param floor robust standard deviation of what is left, full scale 1.0
 * @param steady what is left is about as strong everywhere
 * @param follows what is left where the sound is strong, share of its change from sample to sample;
 *     0 where that does not rise above the floor
 * @param exact every sample outside local changes is the original's times the gain, to the bit
 * @param coherence by line of a transform of {@link FilterFit#size}, share of the power that the
 *     filter explains; null without filter
 */
record Model(
    Mix mix,
    double gain,
    double[] taps,
    double floor,
    boolean steady,
    double follows,
    boolean exact,
    double[] coherence) {

  /** Where what is left swings by more between windows, it is not the same noise everywhere. */
  private static final double STEADY = 3;

  Model withFollows(double share) {
    return new Model(mix, gain, taps, floor, steady, share, exact, coherence);
  }

  /**
   * @param sorted robust standard deviations of windows
   */
  static boolean steady(double[] sorted) {
    return sorted.length == 0
        || sorted[(int) (0.9 * (sorted.length - 1))] <= STEADY * middle(sorted);
  }

  static double middle(double[] sorted) {
    return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
  }
}
