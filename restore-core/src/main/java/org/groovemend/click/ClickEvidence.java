package org.groovemend.click;

/** Weighs what is known of a candidate into one number that grows with the odds of damage against music. */
final class ClickEvidence {
  private ClickEvidence() {}

  static double statistic(Candidate c, double rate) {
    double surroundings = Math.max(1, Math.max(c.before(), c.after()));
    double q = c.energy() / surroundings / Math.max(1, c.unexplained() / surroundings);
    double milliseconds = 1000 * c.length() / rate;
    q /= Math.max(1, milliseconds / 0.8);
    double onset = c.after() / Math.max(c.before(), 0.02);
    q /= Math.max(1, onset / 4);
    return q;
  }
}
