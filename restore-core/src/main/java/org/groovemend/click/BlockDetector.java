package org.groovemend.click;

import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.RobustScale;

/**
 * Finds the places that stand out in one block of one channel. One instance per thread.
 *
 * <p>An AR model is fitted to the block; the strongest two-sided prediction error is taken as a
 * place, its extent found from the forward residual (which begins where the damage begins) and the
 * backward residual (which ends where it ends), the place filled by least squares, and the next
 * strongest sought; then the model is fitted again to the filled block and all is done once more
 * from the original samples.
 */
final class BlockDetector {
  private static final int ROUNDS = 2;

  /** Square of the deviations from which the other channel's pulse counts as found. */
  private static final double MATCHED = 16;

  /**
   * Most that agreement of the channels takes from the log odds of a place: a blow across the whole
   * groove hits both walls alike.
   */
  private static final double AGREEMENT = 2;

  /**
   * Scale of the error, in that of the samples' rounding, below which there is nothing to stand
   * clear of.
   */
  private static final double SURROUNDED = 16;

  /**
   * Difference of two channels' errors, as a share of one's, below which one is a copy of the
   * other.
   */
  private static final double COPY = 0.03;

  /** Pieces of a block, a quarter of it together, that tell a copy. */
  private static final int COPY_PIECES = 8;

  private final int hop;
  private final int size;
  private final int order;
  private final int local;
  private final double[] x;
  private final double[] o;
  private final double[] eo;
  private final double[] own;
  private final double[] apart;
  private final double[] work;
  private final BlockError error;
  private final PlaceSearch search;
  private final Places places = new Places();
  private final CandidateTraits traits;
  private final double rate;

  BlockDetector(ClickGeometry g, double rate) {
    hop = g.hop();
    size = g.window();
    order = g.order();
    local = g.local();
    x = new double[size];
    o = new double[size];
    eo = new double[size];
    own = new double[size / 4];
    apart = new double[size / 4];
    work = new double[size / 4];
    error = new BlockError(g);
    search = new PlaceSearch(g, error);
    traits = new CandidateTraits(g);
    this.rate = rate;
  }

  /**
   * Adds the places of the block that begins at index {@code at}.
   *
   * @param signal has at least half a hop before and one and a half after {@code at}
   * @param firstFrame frame number of index 0
   * @param floor least standard deviation of the residual, full scale 1.0
   */
  void find(
      double[] signal,
      double[] otherSignal,
      int at,
      long firstFrame,
      int channel,
      double floor,
      List<Candidate> out) {
    int origin = at - hop / 2;
    error.load(signal, origin);
    System.arraycopy(signal, origin, x, 0, size);
    for (int round = 0; round < ROUNDS; round++) {
      if (!error.fit(floor)) {
        return;
      }
      if (round == 0) {
        if (error.quiet(PlaceSearch.FIRST_LOOK, floor)) {
          return;
        }
      } else {
        System.arraycopy(x, 0, error.z, 0, size);
        error.filter(order, size);
      }
      error.setScale(order, size - order, floor);
      search.run(places);
      if (places.count() == 0) {
        return;
      }
    }
    boolean other = otherSignal != null && differs(otherSignal, origin);
    Block block =
        new Block(x, error.z, error.e, other ? eo : null, error.a, error.b, order, error.level());
    for (int i = 0; i < places.count(); i++) {
      int middle = (places.start(i) + places.end(i)) / 2;
      if (middle >= hop / 2 - order && middle < 3 * hop / 2 + order) {
        if (other) {
          int from = Math.max(order, places.start(i) - 2 * order);
          int to = Math.min(size, places.end(i) + 3 * order);
          PredictionFilter.residual(error.a, order, o, from, to, eo);
        }
        out.add(describe(block, i, origin + firstFrame, channel, floor));
      }
    }
  }

  /**
   * Looks in this channel for the pulse that damaged the other one: the groove's two walls are hit
   * by the same thing, so that the pulse is known but for its size and sign, and may be found far
   * below what stands out by itself (matched filter in coloured noise; Vaseghi 1988).
   *
   * @param firstFrame frame number of index 0
   * @param start frame where the pulse begins, in the middle half of the block that begins at index
   *     {@code at}
   * @param pulse damage of the other channel
   * @return the place, or null if the pulse is not there
   */
  Candidate match(
      double[] signal,
      int at,
      long firstFrame,
      int channel,
      double floor,
      long start,
      double[] pulse) {
    int origin = at - hop / 2;
    error.load(signal, origin);
    if (!error.fit(floor)) {
      return null;
    }
    error.filter(order, size);
    error.setScale(order, size - order, floor);
    int from = (int) (start - firstFrame) - origin;
    int m = pulse.length;
    if (from < 2 * order || from + m + 2 * order > size) {
      return null;
    }
    double found = 0;
    double energy = 0;
    for (int n = 0; n < m + order; n++) {
      double expected = 0;
      for (int k = Math.max(0, n - m + 1); k <= Math.min(order, n); k++) {
        expected += error.a[k] * pulse[n - k];
      }
      found += expected * error.e[from + n];
      energy += expected * expected;
    }
    double scale = error.scales[from];
    double matched = found * found / (energy * scale * scale);
    if (!(matched > MATCHED)) {
      return null;
    }
    search.fill(from, m);
    return new Candidate(
        start,
        m,
        channel,
        (matched - MATCHED) / 2,
        (matched - MATCHED) / 2,
        scale,
        Arrays.copyOfRange(error.z, from, from + m),
        new double[Trait.COUNT]);
  }

  /**
   * True if the other channel has an error of its own, which it has not where one channel was
   * copied to the other.
   */
  private boolean differs(double[] otherSignal, int origin) {
    System.arraycopy(otherSignal, origin, o, 0, size);
    int length = size / (4 * COPY_PIECES);
    int n = 0;
    for (int piece = 0; piece < COPY_PIECES; piece++) {
      int from = order + piece * ((size - order) / COPY_PIECES);
      PredictionFilter.residual(error.a, order, o, from, from + length, eo);
      for (int i = from; i < from + length; i++) {
        own[n] = error.e[i];
        apart[n++] = error.e[i] - eo[i];
      }
    }
    return RobustScale.aboutZero(apart, 0, n, work) > COPY * RobustScale.aboutZero(own, 0, n, work);
  }

  private Candidate describe(Block block, int i, long originFrame, int channel, double floor) {
    int start = places.start(i);
    int end = places.end(i);
    double unit = places.scale(i) * Math.sqrt(error.b[0]);
    double energy = 0;
    int t = Math.min(size, end + order);
    for (int n = start; n < t; n++) {
      energy += error.e[n] * error.e[n];
    }
    places.surroundings(
        i,
        error.scaleBetween(start - order / 2 - local, start - order / 2) / unit,
        error.scaleBetween(end + order / 2, end + order / 2 + local) / unit,
        Math.sqrt(energy / (t - start)) / places.scale(i));
    double[] measured = traits.measure(block, places, i, rate);
    boolean two = block.otherError() != null;
    double odds = odds(measured, WeightOfEvidence.mono(), two ? WeightOfEvidence.stereo() : null);
    double pulsed =
        odds(measured, WeightOfEvidence.pulsedMono(), two ? WeightOfEvidence.pulsedStereo() : null);
    if (places.scale(i) > SURROUNDED * floor) {
      odds = Math.max(odds, WeightOfEvidence.standingClear(measured));
    }
    return new Candidate(
        originFrame + start,
        end - start,
        channel,
        odds,
        pulsed,
        places.scale(i),
        Arrays.copyOfRange(error.z, start, end),
        measured);
  }

  private static double odds(double[] measured, WeightOfEvidence mono, WeightOfEvidence stereo) {
    double odds = mono.logOdds(measured);
    return stereo == null ? odds : Math.max(stereo.logOdds(measured), odds - AGREEMENT);
  }
}
