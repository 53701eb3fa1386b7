package org.groovemend.click;

/**
 * Tail of the statistic on undamaged sound, fitted on a side that may be full of clicks.
 *
 * <p>Above {@code start} the logarithm of the statistic is taken as a mixture: undamaged sound falls off exponentially (a
 * Pareto tail, the generalised Pareto with shape {@code shape}; Pickands 1975), clicks spread evenly over the decades. Expectation and maximisation share the
 * places out. A prior of {@link #PRIOR_PLACES} places of shape {@link #PRIOR_SHAPE} (found on undamaged invented music)
 * keeps short sides from extremes.
 *
 * @param start statistic from which the tail is fitted
 * @param shape of the tail
 * @param ratePerMinute places of undamaged sound above the start, per minute
 */
record ClickTail(double start, double shape, double ratePerMinute) {
  static final double START = 5;
  static final double PRIOR_SHAPE = 0.28;
  static final double PRIOR_PLACES = 60;
  static final double LEAST_THRESHOLD = 6;
  static final double MOST_THRESHOLD = 9;
  /** Alarms per minute and channel for which the limits are stated. */
  private static final double LIMITS_ALARMS_PER_MINUTE = 1;

  private static final double LARGEST_SHAPE = 0.3;
  /** Natural logarithm of the span over which clicks spread: three decades. */
  private static final double CLICK_SPAN = 6.9;
  private static final int ROUNDS = 60;

  static ClickTail fit(double[] statistics, int count, double minutes) {
    double shape = PRIOR_SHAPE;
    double clicks = 0.5;
    double expected = 0;
    for (int round = 0; round < ROUNDS; round++) {
      expected = 0;
      double excess = 0;
      int above = 0;
      for (int i = 0; i < count; i++) {
        if (statistics[i] > START) {
          double x = StrictMath.log(statistics[i] / START);
          double sound = (1 - clicks) * StrictMath.exp(-x / shape) / shape;
          double share = sound / (sound + clicks / CLICK_SPAN);
          expected += share;
          excess += share * x;
          above++;
        }
      }
      if (above == 0) {
        break;
      }
      shape = (excess + PRIOR_SHAPE * PRIOR_PLACES) / (expected + PRIOR_PLACES);
      shape = Math.min(LARGEST_SHAPE, shape);
      clicks = Math.min(0.95, 1 - expected / above);
    }
    return new ClickTail(START, shape, minutes > 0 ? expected / minutes : 0);
  }

  /**
   * Threshold for a rate of alarms per minute and channel, held within limits: on a side full of small clicks the mixture
   * takes part of them for sound, and without the upper limit most of the damage would be left. The limits move with the
   * wanted rate along a tail of the prior's shape.
   */
  double threshold(double alarmsPerMinute) {
    double move = StrictMath.pow(LIMITS_ALARMS_PER_MINUTE / alarmsPerMinute, PRIOR_SHAPE);
    double least = Math.max(START, LEAST_THRESHOLD * move);
    double most = Math.max(least, MOST_THRESHOLD * move);
    double t = ratePerMinute > 0 ? start * StrictMath.pow(ratePerMinute / alarmsPerMinute, shape) : least;
    return Math.max(least, Math.min(most, t));
  }

  /** Alarms per minute to be expected at a threshold. */
  double alarms(double threshold) {
    return ratePerMinute * StrictMath.pow(threshold / start, -1 / shape);
  }
}
