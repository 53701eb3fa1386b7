package org.groovemend.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.stage.RangeReader;

/**
 * Follows the derivative through the original, passage by passage; where it is lost, onsets are
 * asked anew. Not for several threads at once.
 */
final class PassageTrack {
  private static final double REACH_SECONDS = 0.04;
  private static final double HOP_SECONDS = 0.4;

  /** Of a long side no more passages than this are looked at. */
  private static final int MOST_PASSAGES = 2000;

  /**
   * Of noise the highest of some 4000 values is 3.7 standard deviations; this is never by chance.
   */
  static final double FOUND = 7.5;

  private static final int CANDIDATES = 4;
  private static final double TEMPLATE_SECONDS = 8;
  private static final int MOST_LOST_SEARCHES = 200;

  private final RangeReader derivative;
  private final OnsetTrack derivativeOnsets;
  private final OnsetSearch search;
  private final int rate;
  private final double[][] d;
  private final double[] one;
  private double[][] o;
  private double[] longer;
  private final double factor;
  private final Silent timeline;
  private final PassageMatch match;
  private Pairing pairing;
  private int lostSearches;

  /**
   * @param timeline the original at the derivative's rate and speed
   * @param factor of that speed
   * @param passageSeconds length of a passage: shorter ones bear a wrong speed better
   */
  PassageTrack(
      RangeReader timeline,
      double factor,
      RangeReader derivative,
      OnsetTrack derivativeOnsets,
      OnsetSearch search,
      Pairing pairing,
      double passageSeconds) {
    this.derivative = derivative;
    this.derivativeOnsets = derivativeOnsets;
    this.search = search;
    this.factor = factor;
    this.pairing = pairing;
    this.timeline = new Silent(timeline);
    rate = derivative.format().sampleRateHz();
    int length = (int) Math.min(derivative.frames(), Math.round(passageSeconds * rate));
    match = new PassageMatch(rate, length, (int) Math.round(REACH_SECONDS * rate));
    d = new double[derivative.format().channels()][length];
    one = new double[length];
    o = new double[timeline.format().channels()][length + 2 * match.reach()];
    longer = new double[o[0].length];
  }

  Pairing pairing() {
    return pairing;
  }

  private static long hop(RangeReader derivative) {
    int rate = derivative.format().sampleRateHz();
    return Math.max(Math.round(HOP_SECONDS * rate), derivative.frames() / MOST_PASSAGES + 1);
  }

  /** How many passages are looked for, nearly. */
  static int count(RangeReader derivative) {
    return (int) Math.max(1, derivative.frames() / hop(derivative));
  }

  /** All passages; empty if the derivative is nowhere in the original. */
  List<Passage> run() throws IOException {
    int length = match.length();
    long last = derivative.frames() - length;
    long hop = hop(derivative);
    int count = (int) (last / hop + 1);
    Passage[] all = new Passage[count];
    int start = acquire(all, hop);
    if (start < 0) {
      return List.of();
    }
    follow(all, hop, start, 1);
    follow(all, hop, start, -1);
    List<Passage> found = new ArrayList<>();
    for (Passage p : all) {
      if (p != null) {
        found.add(p);
      }
    }
    return found;
  }

  /** Looks at passages spread over the derivative until one is found. */
  private int acquire(Passage[] all, long hop) throws IOException {
    int tries = Math.min(all.length, 16);
    boolean free = pairing == null;
    for (int t = 0; t < tries; t++) {
      // middle first, then ever finer
      int k = (int) ((Integer.reverse(t + 1) >>> 1) / (double) Integer.MAX_VALUE * all.length);
      k = Math.min(all.length - 1, k);
      Passage p = locate(k * hop, free);
      if (p != null) {
        all[k] = p;
        return k;
      }
    }
    return -1;
  }

  private void follow(Passage[] all, long hop, int start, int way) throws IOException {
    long lag = all[start].lag();
    int lost = 0;
    for (int k = start + way; k >= 0 && k < all.length; k += way) {
      if (all[k] != null) {
        lag = all[k].lag();
        continue;
      }
      all[k] = near(k * hop, lag);
      if (all[k] == null && ++lost >= 2 && lost % 2 == 0 && lostSearches < MOST_LOST_SEARCHES) {
        lostSearches++;
        all[k] = locate(k * hop, false);
      }
      if (all[k] != null) {
        lag = all[k].lag();
        lost = 0;
      }
    }
  }

  /** The passage at a frame by its onsets; null if it is not found. */
  private Passage locate(long frame, boolean free) throws IOException {
    int length =
        Math.min(
            derivativeOnsets.length(), (int) Math.round(TEMPLATE_SECONDS * OnsetTrack.PER_SECOND));
    int first =
        (int)
            Math.max(
                0,
                Math.min(derivativeOnsets.length() - length, frame * OnsetTrack.PER_SECOND / rate));
    Passage best = null;
    for (int part = 1; part <= 4 && best == null; part *= 4) {
      // the shorter part begins at the passage itself
      int from = part == 1 ? first : (int) (frame * OnsetTrack.PER_SECOND / rate);
      int n = Math.min(length / part, derivativeOnsets.length() - from);
      if (n < 10) {
        continue;
      }
      for (OnsetSearch.Place place : search.find(derivativeOnsets, from, n, factor, CANDIDATES)) {
        double at = place.seconds() / factor * rate;
        long lag = Math.round(at - (double) from * rate / OnsetTrack.PER_SECOND);
        Pairing before = pairing;
        Passage p = free ? nearAny(frame, lag) : near(frame, lag);
        if (p != null && (best == null || p.height() > best.height())) {
          best = p;
        } else {
          pairing = before;
        }
      }
    }
    return best;
  }

  private Passage nearAny(long frame, long lag) throws IOException {
    Passage best = null;
    Pairing kept = pairing;
    for (Pairing one : Pairing.of(timeline.channels(), derivative.format().channels())) {
      pairing = one;
      Passage p = near(frame, lag);
      // a plainer pairing stays unless another is better by half
      if (p != null && (best == null || p.height() > 1.5 * best.height())) {
        best = p;
        kept = one;
      }
    }
    pairing = kept;
    return best;
  }

  /** The passage at a frame if it is found near a lag; else null. */
  private Passage near(long frame, long lag) throws IOException {
    int length = match.length();
    derivative.read(frame, length, d);
    Pairing.take(pairing == null ? 0 : pairing.derivative(), d, length, one);
    timeline.read(frame + lag - match.reach(), length + 2 * match.reach(), o, 0);
    Pairing.take(pairing == null ? 0 : pairing.original(), o, longer.length, longer);
    match.run(one, 0, longer);
    return match.height < FOUND
        ? null
        : new Passage(frame, lag + match.at - match.reach(), match.height, match.opposed);
  }
}
