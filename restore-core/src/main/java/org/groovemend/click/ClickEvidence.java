package org.groovemend.click;

import java.util.List;

/**
 * Weighs what is known of a candidate into one number that grows with the odds of damage against music.
 *
 * <p>It starts from the square root of the residual energy that declaring the place unknown explains, in standard deviations of
 * the louder of the block and the two sides of the place, and is divided for each thing that speaks for music: a remainder that the fill does not
 * explain (a step or an onset cannot be filled away), length, a louder continuation, fewer samples than a pickup lets through,
 * the same sign and about the same size in both channels, and a size well below the programme's level.
 */
final class ClickEvidence {
  /** Length from which a place is held against being a click, milliseconds; common practice, no source. */
  private static final double SHORT_MILLISECONDS = 0.2;
  private static final double LONG_MILLISECONDS = 1.0;
  private static final double LOUDER_AFTER = 2.5;
  /** Pickups resonate at 10 to 20 kHz: what is shorter did not pass one. */
  private static final double PICKUP_SECONDS = 45e-6;
  private static final double TOO_SHORT = 3;
  private static final double BOTH_CHANNELS = 2;

  private ClickEvidence() {}

  /** The statistic without regard to the other channel and to the level. */
  static double own(Candidate c, double rate) {
    double surroundings = Math.max(1, Math.max(c.before(), c.after()));
    double q = c.energy() / surroundings / Math.max(1, c.unexplained() / surroundings);
    double milliseconds = 1000 * c.length() / rate;
    q /= Math.max(1, milliseconds / SHORT_MILLISECONDS) * Math.max(1, milliseconds / LONG_MILLISECONDS);
    q /= Math.max(1, c.after() / Math.max(c.before(), 0.02) / LOUDER_AFTER);
    return c.length() < rate * PICKUP_SECONDS ? q / TOO_SHORT : q;
  }

  /** The statistic that is compared with the threshold. */
  static double statistic(Candidate c, Candidate other, double rate) {
    double q = own(c, rate);
    if (other != null) {
      double ratio = other.amplitude() / c.amplitude();
      if (ratio > 0.6 && ratio < 1 / 0.6) {
        q /= BOTH_CHANNELS;
      }
    }
    return q * Math.min(1, Math.abs(c.amplitude()) / c.level());
  }

  /** The strongest candidate of the other channel, sorted by start, that begins within {@code reach} frames; or null. */
  static Candidate partner(Candidate c, List<Candidate> others, int reach) {
    int lo = 0;
    int hi = others.size();
    while (lo < hi) {
      int middle = (lo + hi) >>> 1;
      if (others.get(middle).start() < c.start() - reach) {
        lo = middle + 1;
      } else {
        hi = middle;
      }
    }
    Candidate best = null;
    for (int i = lo; i < others.size() && others.get(i).start() <= c.start() + reach; i++) {
      if (best == null || others.get(i).energy() > best.energy()) {
        best = others.get(i);
      }
    }
    return best;
  }
}
