package org.groovemend.hum;

import java.util.Arrays;
import org.groovemend.signal.special.Bessel;

/**
 * Weight of evidence (I. J. Good, Probability and the Weighing of Evidence, 1950) that a line is
 * hum rather than what music and noise put there.
 *
 * <p>Music at a line is a chain of two states: none, where the amplitude has the Rayleigh
 * distribution of the neighbourhood's noise, and a note, whose amplitude may be anything at first
 * and then mostly stays. Hum adds a constant: without a note the amplitude has the Rice
 * distribution about the level, which may waver; with one the two add up as vectors. A note of the
 * hum's level and steadiness tells nothing while it lasts; the moments without it tell against hum.
 *
 * @param decibans ten times the common logarithm of the odds' change
 * @param level amplitude of the likeliest hum, full scale 1.0
 * @param trust by knot, probability that nothing but the hum and noise is on the line
 * @param seen knots at which hum of that level would stand out
 * @param missing of these, knots at which it plainly does not
 */
record LineEvidence(double decibans, double level, double[] trust, int seen, int missing) {
  /** Mean length of a note and of a gap between notes, in knots: two seconds. */
  private static final double LASTING = 4;

  /** Relative spread of the hum's amplitude. */
  private static final double WAVER = 0.2;

  /** Range of a note's amplitude, log. */
  private static final double BROAD = 9.2;

  /** Spread of a held note's amplitude from knot to knot, log. */
  private static final double HELD = 0.2;

  private static final double HELD_SHARE = 0.7;

  /** Power over the neighbourhood's from which a moment counts as seen: 9 dB. */
  private static final double SEEN = 8;

  /** Share of the level's power below which a line plainly is not there. */
  static final double GONE = 1.0 / 9;

  /** Moments at which a line must be seen: two seconds. */
  private static final int LEAST_SEEN = 4;

  private static final double[] QUANTILES = {0.1, 0.2, 0.35, 0.5};

  /** Share of the moments in which hum may be missing. */
  private static final double MISSING_SHARE = 0.03;

  static LineEvidence of(LineSeries line) {
    int n = line.knots();
    double[] sizes = new double[n];
    int measured = 0;
    for (int j = 0; j < n; j++) {
      if (Double.isFinite(line.floor()[j])) {
        sizes[measured++] = Math.sqrt(line.power(j));
      }
    }
    Arrays.sort(sizes, 0, measured);
    Chain chain = new Chain(line);
    double without = chain.run(0);
    LineEvidence best = null;
    for (double quantile : QUANTILES) {
      double level = sizes[(int) (quantile * (measured - 1))];
      if (!(level > 0)) {
        continue;
      }
      double odds = chain.run(level) - without - StrictMath.log(QUANTILES.length);
      double decibans = 10 * odds / StrictMath.log(10);
      if (best == null || decibans > best.decibans) {
        best = judged(line, decibans, level, new double[0]);
      }
    }
    if (best == null) {
      return null;
    }
    // steadiness tells a note from music, but hum is steady too: no reason to doubt a moment
    chain.forgetHeld();
    chain.run(best.level);
    return judged(line, best.decibans, best.level, chain.trust());
  }

  private static LineEvidence judged(LineSeries line, double decibans, double level, double[] t) {
    int seen = 0;
    int missing = 0;
    for (int j = 0; j < line.knots(); j++) {
      if (line.floor()[j] < level * level / SEEN) {
        seen++;
        missing += line.power(j) < GONE * level * level ? 1 : 0;
      }
    }
    return new LineEvidence(decibans, level, t, seen, missing);
  }

  /** Whether it is there all the time, as far as that can be seen. */
  boolean steady() {
    return seen >= LEAST_SEEN && missing <= MISSING_SHARE * seen;
  }

  /** Forward-backward over the two states (L. Rabiner, Proc. IEEE 77(2), 1989). */
  private static final class Chain {
    private static final double STAY = StrictMath.exp(-1 / LASTING);

    private final LineSeries line;
    private final int n;
    private final double[] clear;
    private final double[] fresh;
    private final double[] held;
    private final double[] forward;
    private final double[] scale;
    private boolean holding = true;

    Chain(LineSeries line) {
      this.line = line;
      this.n = line.knots();
      this.clear = new double[n];
      this.fresh = new double[n];
      this.held = new double[n];
      this.forward = new double[n];
      this.scale = new double[n];
    }

    /** From now on a note may have any amplitude at any moment. */
    void forgetHeld() {
      holding = false;
    }

    /** Log likelihood of the amplitudes with hum of a level, 0 for none. */
    double run(double level) {
      for (int j = 0; j < n; j++) {
        densities(j, level);
      }
      double none = 0.5;
      double note = 0.5;
      double sum = 0;
      for (int j = 0; j < n; j++) {
        double toNone = j == 0 ? none : STAY * none + (1 - STAY) * note;
        double begun = j == 0 ? note : (1 - STAY) * none;
        double kept = j == 0 ? 0 : STAY * note;
        none = toNone * clear[j];
        note = begun * fresh[j] + kept * held[j];
        scale[j] = none + note;
        none /= scale[j];
        note /= scale[j];
        forward[j] = none;
        sum += StrictMath.log(scale[j]);
      }
      return sum;
    }

    /** Posterior of the state without a note, after {@link #run}. */
    double[] trust() {
      double[] out = new double[n];
      double none = 1;
      double note = 1;
      for (int j = n - 1; j >= 0; j--) {
        double a = forward[j] * none;
        double b = (1 - forward[j]) * note;
        out[j] = a / (a + b);
        if (j > 0) {
          double toNone = clear[j] * none;
          double before = STAY * toNone + (1 - STAY) * fresh[j] * note;
          note = ((1 - STAY) * toNone + STAY * held[j] * note) / scale[j];
          none = before / scale[j];
        }
      }
      return out;
    }

    /** Densities of the log amplitude: a change of unit changes nothing. */
    private void densities(int j, double level) {
      double floor = line.floor()[j];
      if (Double.isInfinite(floor)) {
        clear[j] = 1;
        fresh[j] = 1;
        held[j] = 1;
        return;
      }
      double square = Math.max(line.power(j), 1e-12 * floor);
      double wide = floor + 2 * (WAVER * level) * (WAVER * level);
      double bend = 2 * Math.sqrt(square) * level / wide;
      double log = -(square + level * level) / wide + Bessel.logI0(bend);
      clear[j] = Math.max(2 * square / wide * StrictMath.exp(Math.min(log, 700)), 1e-30);
      // a vector of any size added: seldom does it just cancel the hum
      double rather = Math.max(level * level, floor);
      double any = Math.min(1, square / rather) / BROAD;
      fresh[j] = Math.max(any, 1e-30);
      held[j] = fresh[j];
      if (holding && j > 0 && Double.isFinite(line.floor()[j - 1]) && square > level * level / 4) {
        double before = Math.max(line.power(j - 1), 1e-12 * floor);
        double step = 0.5 * StrictMath.log(square / before) / HELD;
        double same = StrictMath.exp(-step * step / 2) / (HELD * Math.sqrt(2 * Math.PI));
        held[j] = (1 - HELD_SHARE) * fresh[j] + HELD_SHARE * same;
      }
    }
  }
}
