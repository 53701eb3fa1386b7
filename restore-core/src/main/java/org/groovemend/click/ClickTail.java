package org.groovemend.click;

/**
 * Upper tail of the log odds on undamaged sound, fitted on a side that may be full of clicks.
 *
 * <p>Above {@link #START} the log odds are taken as a mixture: undamaged sound falls off as a
 * Weibull tail of shape {@link #SHAPE} and of this side's own spread, clicks lie about {@link
 * #CLICK_MEAN}. Expectation and maximisation share the places out. A prior of {@link #PRIOR_PLACES}
 * places keeps short sides from extremes. Shape, prior and limits were found on undamaged and
 * artificially damaged sound of many kinds.
 *
 * @param spread scale of the tail of undamaged sound
 * @param ratePerMinute places of undamaged sound above the start, per minute
 */
record ClickTail(double spread, double ratePerMinute) {
  static final double START = -2;
  static final double SHAPE = 1.3;

  /** Limits of the threshold for {@link #LIMITS_ALARMS_PER_MINUTE}. */
  static final double LOWEST = 2;

  static final double HIGHEST = 3;

  /** Evidence without which no place is repaired, however many are. */
  static final double LEAST_EVIDENCE = 1;

  /** Evidence that is enough on any side. */
  static final double MOST_EVIDENCE = 6;

  private static final double SAFE = 2;
  private static final double HOPEFUL = 0.1;
  private static final double STEP = 0.25;

  private static final double LIMITS_ALARMS_PER_MINUTE = 1;
  private static final double PRIOR_SPREAD = 1.2;
  private static final double PRIOR_PLACES = 20;
  private static final double LARGEST_SPREAD = 2.5;
  private static final double CLICK_MEAN = 6;
  private static final double CLICK_DEVIATION = 3;

  /**
   * Density of clicks far above their mean, so that the strongest count as clicks whatever the
   * spread.
   */
  private static final double CLICK_FLOOR = 0.05;

  private static final int ROUNDS = 60;

  static ClickTail fit(double[] logOdds, int count, double minutes) {
    double spread = PRIOR_SPREAD;
    double clicks = 0.5;
    double music = 0;
    for (int round = 0; round < ROUNDS; round++) {
      music = 0;
      double power = 0;
      int above = 0;
      for (int i = 0; i < count; i++) {
        double x = logOdds[i] - START;
        if (x > 0) {
          double raised = StrictMath.pow(x / spread, SHAPE);
          double sound = (1 - clicks) * SHAPE / x * raised * StrictMath.exp(-raised) + 1e-300;
          double share = sound / (sound + clicks * clickDensity(logOdds[i]));
          music += share;
          power += share * StrictMath.pow(x, SHAPE);
          above++;
        }
      }
      if (above == 0) {
        break;
      }
      double prior = PRIOR_PLACES * StrictMath.pow(PRIOR_SPREAD, SHAPE);
      spread = StrictMath.pow((power + prior) / (music + PRIOR_PLACES), 1 / SHAPE);
      spread = Math.min(LARGEST_SPREAD, spread);
      clicks = Math.max(1e-4, Math.min(0.98, 1 - music / above));
    }
    return new ClickTail(spread, minutes > 0 ? music / minutes : 0);
  }

  private static double clickDensity(double logOdds) {
    double u = (logOdds - CLICK_MEAN) / CLICK_DEVIATION;
    double normal = StrictMath.exp(-0.5 * u * u);
    return (u > 0 ? Math.max(normal, CLICK_FLOOR) : normal)
        / (CLICK_DEVIATION * Math.sqrt(2 * Math.PI));
  }

  /**
   * Threshold for a rate of alarms per minute and channel, within limits: on a side full of small
   * clicks the mixture takes part of them for sound, and without the upper limit much damage would
   * be left. The limits move with the wanted rate along a tail of the prior's spread.
   */
  double threshold(double alarmsPerMinute) {
    double move = PRIOR_SPREAD * StrictMath.log(LIMITS_ALARMS_PER_MINUTE / alarmsPerMinute) / 2;
    double least = LOWEST + move;
    double most = HIGHEST + move;
    double t =
        ratePerMinute > alarmsPerMinute
            ? START
                + spread
                    * StrictMath.pow(StrictMath.log(ratePerMinute / alarmsPerMinute), 1 / SHAPE)
            : least;
    return Math.max(least, Math.min(most, t));
  }

  /**
   * Alarms per minute that the fitted tail has above a threshold; generous on a side full of
   * clicks.
   */
  double alarms(double threshold) {
    double x = Math.max(0, threshold - START) / spread;
    return ratePerMinute * StrictMath.exp(-StrictMath.pow(x, SHAPE));
  }

  /**
   * Alarms per minute to be expected above a threshold, from the odds themselves: the share of
   * damage among all places is found by expectation and maximisation, then every place counts with
   * the probability that it is music after all.
   */
  static double expected(double[] logOdds, int count, double minutes, double threshold) {
    return expected(logOdds, count, minutes, threshold, damage(logOdds, count));
  }

  private static double damage(double[] logOdds, int count) {
    double damage = 0.5;
    for (int round = 0; round < ROUNDS; round++) {
      double sum = 0;
      for (int i = 0; i < count; i++) {
        sum += 1 - music(logOdds[i], damage);
      }
      damage = count == 0 ? 0.5 : Math.max(1e-4, Math.min(1 - 1e-4, sum / count));
    }
    return damage;
  }

  private static double expected(
      double[] logOdds, int count, double minutes, double threshold, double damage) {
    double alarms = 0;
    for (int i = 0; i < count; i++) {
      if (logOdds[i] > threshold) {
        alarms += music(logOdds[i], damage);
      }
    }
    return minutes > 0 ? alarms / minutes : 0;
  }

  /**
   * Least threshold, from {@code leastEvidence} up, at which no more alarms per minute are to be
   * expected from the odds themselves than wanted. On a side full of clicks most places are damage,
   * so that less evidence is enough. Below {@link #SAFE} the odds must promise ten times fewer: on
   * drums they were found too hopeful by up to that.
   */
  static double oddsThreshold(
      double[] logOdds, int count, double minutes, double alarmsPerMinute, double leastEvidence) {
    double damage = damage(logOdds, count);
    double t = leastEvidence;
    while (t < MOST_EVIDENCE
        && expected(logOdds, count, minutes, t, damage)
            > (t < SAFE ? HOPEFUL * alarmsPerMinute : alarmsPerMinute)) {
      t += STEP;
    }
    return t;
  }

  private static double music(double logOdds, double damage) {
    return 1 / (1 + damage / (1 - damage) * StrictMath.exp(logOdds));
  }
}
