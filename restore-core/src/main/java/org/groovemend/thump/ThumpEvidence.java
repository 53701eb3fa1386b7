package org.groovemend.thump;

/**
 * What speaks for a thump and against a drum or a low note, added as weights of evidence (Good
 * 1950).
 *
 * @param share share of the whitened energy of the low band that the ring explains
 * @param drop drop in that energy
 * @param vertical share of the ring in the difference of the channels; 0 for one channel
 * @param brightness level of what lies above the low band just after the onset against just before,
 *     in dB
 * @param level amplitude of the ring over the root mean square of all sound around, in dB
 * @param lowest frequency to which the ring has fallen after three decays, in Hz
 * @param extreme true if the ring is shorter or higher than thumps are
 */
record ThumpEvidence(
    double share,
    double drop,
    double vertical,
    double brightness,
    double level,
    double lowest,
    boolean extreme) {

  private static final double CANNOT_TELL = 1e-9;
  private static final double MOST_DARK = 3;
  private static final double MOST_LOW = 10;

  static ThumpEvidence of(Thump t, double brightness, double level) {
    ThumpShape s = t.shape();
    return new ThumpEvidence(
        t.findings().share(),
        t.findings().drop(),
        t.vertical(),
        brightness,
        level,
        s.frequency(3 * s.decaySeconds()),
        s.extreme());
  }

  /** Sum of the weights, in decibans: ten times the common logarithm of the odds. */
  double decibans() {
    double sum = explained(share, drop, vertical);
    sum += within(-30, MOST_DARK, 3 - brightness);
    sum += within(-15, 0, level + 6);
    sum += within(-MOST_LOW, MOST_LOW, 0.8 * (40 - lowest));
    return extreme ? sum - 30 : sum;
  }

  /** Most decibans that can be reached with what a ring explains. */
  static double most(double share, double drop, double vertical) {
    return explained(share, drop, vertical) + MOST_DARK + MOST_LOW;
  }

  private static double explained(double share, double drop, double vertical) {
    double odds = share / Math.max(1e-9, 1 - share);
    double sum = within(-12, 12, 10 * StrictMath.log10(Math.max(odds, 1e-9)));
    sum += within(-12, 8, 10 * StrictMath.log10(Math.max(drop, 1) / 100));
    // one channel, or one copied to the other, cannot tell; else a ring wholly alike in both is
    // more
    // likely breath on a microphone
    double least = vertical > CANNOT_TELL ? -20 : -6;
    return sum + within(least, 8, 8 * StrictMath.log10(Math.max(vertical, 1e-9) / 0.1));
  }

  private static double within(double least, double most, double v) {
    return Math.max(least, Math.min(most, v));
  }
}
