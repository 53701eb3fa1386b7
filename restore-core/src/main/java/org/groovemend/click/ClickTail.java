package org.groovemend.click;

/**
 * Upper tail of the log odds on undamaged sound, fitted on a side that may be full of clicks.
 *
 * <p>Above {@link #START} the log odds of undamaged sound fall off as a Weibull tail of shape
 * {@link #SHAPE} and of this side's own spread (W. Weibull, J. Applied Mechanics 18, 1951; maximum
 * likelihood of the scale for a known shape). Every place counts with the probability that it is
 * sound after all, by its odds and this side's share of damage. A prior of {@link #PRIOR_PLACES}
 * places keeps short sides from extremes. Shape and prior were found on undamaged and artificially
 * damaged sound of many kinds.
 *
 * @param spread scale of the tail of undamaged sound
 * @param ratePerMinute places of undamaged sound above the start, per minute
 * @param damage share of damage among all places, found by expectation and maximisation
 */
record ClickTail(double spread, double ratePerMinute, double damage) {
  static final double START = -2;
  static final double SHAPE = 1.3;

  /** Threshold of a side on which nothing is sought. */
  static final double HIGHEST = 3;

  /** Evidence without which no place is repaired, however many are. */
  static final double LEAST_EVIDENCE = 1;

  /** Evidence that is enough on any side. */
  static final double MOST_EVIDENCE = 6;

  private static final double SAFE = 2;
  private static final double HOPEFUL = 0.1;
  private static final double STEP = 0.25;

  private static final double PRIOR_SPREAD = 1.2;
  private static final double PRIOR_PLACES = 20;
  private static final int ROUNDS = 60;

  static ClickTail fit(double[] logOdds, int count, double minutes) {
    double damage = damage(logOdds, count);
    double sound = 0;
    double power = 0;
    for (int i = 0; i < count; i++) {
      double x = logOdds[i] - START;
      if (x > 0) {
        double share = music(logOdds[i], damage);
        sound += share;
        power += share * StrictMath.pow(x, SHAPE);
      }
    }
    double prior = PRIOR_PLACES * StrictMath.pow(PRIOR_SPREAD, SHAPE);
    double spread = StrictMath.pow((power + prior) / (sound + PRIOR_PLACES), 1 / SHAPE);
    return new ClickTail(spread, minutes > 0 ? sound / minutes : 0, damage);
  }

  /**
   * Least threshold, from {@code leastEvidence} up, above which neither the tail of undamaged sound
   * nor the odds themselves promise more alarms per minute than wanted. The tail speaks on sides
   * with little damage, where it shows how far this side's own sound reaches; the odds on worn
   * ones, where the tail has little to go by.
   *
   * @param logOdds the places that the tail was fitted to
   */
  double threshold(
      double[] logOdds, int count, double minutes, double alarmsPerMinute, double leastEvidence) {
    double t = oddsThreshold(logOdds, count, minutes, alarmsPerMinute, leastEvidence);
    while (t < MOST_EVIDENCE && alarms(t) > alarmsPerMinute) {
      t += STEP;
    }
    return t;
  }

  /** Alarms per minute that the fitted tail has above a threshold. */
  double alarms(double threshold) {
    double x = Math.max(0, threshold - START) / spread;
    return ratePerMinute * StrictMath.exp(-StrictMath.pow(x, SHAPE));
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

  /**
   * Alarms per minute to be expected above a threshold, from the odds themselves: every place
   * counts with the probability that it is music after all.
   *
   * @param logOdds the places that the tail was fitted to
   */
  double expected(double[] logOdds, int count, double minutes, double threshold) {
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
  private double oddsThreshold(
      double[] logOdds, int count, double minutes, double alarmsPerMinute, double leastEvidence) {
    double t = leastEvidence;
    while (t < MOST_EVIDENCE
        && expected(logOdds, count, minutes, t)
            > (t < SAFE ? HOPEFUL * alarmsPerMinute : alarmsPerMinute)) {
      t += STEP;
    }
    return t;
  }

  private static double music(double logOdds, double damage) {
    return 1 / (1 + damage / (1 - damage) * StrictMath.exp(logOdds));
  }
}
