package org.groovemend.thump;

/** Separates one thump from the music around it. One instance per thread. */
final class ThumpEstimator {
  private static final int ORDER = ThumpGeometry.ORDER;

  /** Instants around the onset that the low-pass filter and the burst at the front disturb. */
  private static final int DISTURBED_BEFORE = 2;

  private static final int DISTURBED_AFTER = 5;
  private static final int STEPS = 12;

  /** What a ring must bring at the first look to be worth the second. */
  private static final double LEAST_DROP = 30;

  private static final double LEAST_SHARE = 0.03;

  /** The same for the second look, whose neighbours are gone. */
  private static final double LEAST_SHARE_THEN = 0.015;

  /** Fewest instants in which anything can be found. */
  static final int LEAST_INSTANTS = 6 * ORDER + PlaceData.EARLY;

  /** How much the later steps may still add to what the first ones explain, as a factor. */
  private static final double TO_COME = 1.5;

  /** Share of the drop under which a step is the last at the first look. */
  private static final double ENOUGH_AT_FIRST = 3e-4;

  /** What they may add to the evidence for vertical movement, in decibans. */
  private static final double VERTICAL_TO_COME = 4;

  private final ThumpGeometry g;
  private final double threshold;
  private final int channels;
  private final MusicModel model;
  private final ThumpFit fit;
  private final Remainder remainder;
  private final double[][] without;
  private final double[][] along;

  ThumpEstimator(ThumpGeometry g, ThumpGrid grid, double threshold, int channels) {
    this.g = g;
    this.threshold = threshold;
    this.channels = channels;
    this.model = new MusicModel(channels);
    this.fit = new ThumpFit(g, grid, model, channels);
    this.remainder = new Remainder(g, model);
    this.without = new double[channels][g.lookBack() + g.lookAhead()];
    this.along = new double[channels][remainder.length()];
  }

  /**
   * Separates a thump.
   *
   * @param low the low band, one array per channel
   * @param first instant of index 0
   * @param length valid samples
   * @param onset where to look
   * @param second true for a second look, neighbours taken out
   * @return null if nothing can be said here, or nothing that matters; without the ring's remainder
   */
  Thump estimate(double[][] low, long first, int length, Onset onset, boolean second) {
    int at = (int) (onset.instant() - first);
    int from = Math.max(0, at - g.lookBack());
    int to = Math.min(length, at + g.lookAhead());
    if (at - from < 4 * ORDER + PlaceData.EARLY || to - at < 2 * ORDER) {
      return null;
    }
    int gap = at - PlaceData.EARLY;
    int rest = Math.min(to, at + g.judged());
    if (!model.fit(low, from, gap, rest, to, false)) {
      return null;
    }
    fit.content(second ? 0 : ENOUGH_AT_FIRST);
    fit.load(low, at, to);
    fit.search();
    double least = second ? LEAST_SHARE_THEN : LEAST_SHARE;
    if (fit.drop() < LEAST_DROP / 2 || fit.drop() < least / 2 * fit.energy()) {
      return null;
    }
    fit.refine(STEPS, true);
    if (hopeless(onset.instant())) {
      return null;
    }
    fit.shift();
    Thump thump = thump(onset.instant(), false);
    if (fit.drop() < LEAST_DROP || fit.drop() < least * fit.energy()) {
      return null;
    }
    for (int round = 0; round < 2; round++) {
      for (int c = 0; c < channels; c++) {
        System.arraycopy(low[c], from, without[c], 0, to - from);
      }
      thump.add(g, without, first + from, to - from, -1);
      int onsetAt = at + (int) Math.floor(fit.shape().onset());
      int before = onsetAt - 2 * DISTURBED_AFTER - from;
      int after = onsetAt + 2 * DISTURBED_AFTER - from;
      if (!model.fit(without, 0, before, after, to - from, false)) {
        return null;
      }
      fit.load(low, at, to);
      if (round == 1) {
        int n = (int) Math.floor(fit.shape().onset());
        fit.forget(n - DISTURBED_BEFORE, n + DISTURBED_AFTER);
      }
      fit.refine(STEPS, round == 0);
      if (round == 0) {
        fit.shift();
        fit.refine(STEPS / 2, true);
      }
      thump = thump(onset.instant(), false);
    }
    return thump;
  }

  /** The last estimate with the ring's remainder. */
  Thump whole(long reference) {
    return thump(reference, true);
  }

  /** True if the evidence cannot reach the threshold, whatever later steps bring. */
  private boolean hopeless(long reference) {
    Thump t = thump(reference, false);
    double share = Math.min(1, TO_COME * t.findings().share());
    double drop = TO_COME * t.findings().drop();
    return ThumpEvidence.most(share, drop, t.vertical()) + VERTICAL_TO_COME < threshold;
  }

  private Thump thump(long reference, boolean whole) {
    ThumpShape shape = fit.shape();
    int start = (int) Math.ceil(shape.onset());
    Thump.Findings findings = new Thump.Findings(fit.drop(), fit.energy(), fit.count());
    if (whole) {
      fit.joinWaveforms();
    }
    double[] cos = new double[channels];
    double[] sin = new double[channels];
    double[][] rest = new double[channels][whole ? remainder.length() : 0];
    for (int k = 0; k < channels; k++) {
      double[] c = fit.coefficients(k);
      if (whole) {
        double size = Math.sqrt(c[0] * c[0] + c[1] * c[1]);
        remainder.find(fit, k, size, start, along[k]);
      }
      if (!model.active(k)) {
        continue;
      }
      for (int channel = 0; channel < channels; channel++) {
        double share = model.share(channel, k);
        cos[channel] += share * c[0];
        sin[channel] += share * c[1];
        for (int i = 0; i < rest[channel].length; i++) {
          rest[channel][i] += share * along[k][i];
        }
      }
    }
    return new Thump(reference, shape, cos, sin, reference + start, rest, findings);
  }
}
