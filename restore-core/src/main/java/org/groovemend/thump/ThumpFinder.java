package org.groovemend.thump;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.stage.SegmentWindow;

/**
 * Finds the thumps of a segment: onsets, separation of each alone, then again with its neighbours
 * taken out, and what speaks for each. One instance per thread.
 */
final class ThumpFinder {
  /** Evidence of the first look under which a place is not looked at again, in decibans. */
  private static final double HOPELESS = -12;

  private final ThumpGeometry g;
  private final double threshold;
  private final LowBand low;
  private final OnsetSearch search;
  private final ThumpEstimator estimator;
  private final Brightness brightness;
  private double[][] rest = new double[0][0];

  ThumpFinder(ThumpGeometry g, ThumpShapes shapes, double threshold, int channels) {
    this.g = g;
    this.threshold = threshold;
    this.low = new LowBand(g);
    this.search = new OnsetSearch(g, shapes.templates(), channels);
    this.estimator = new ThumpEstimator(g, shapes.grid(), threshold, channels);
    this.brightness = new Brightness(g);
  }

  /** All places whose repair would begin within the segment or hardly outside. */
  List<Judged> judge(SegmentWindow w) {
    List<Judged> judged = new ArrayList<>();
    low.load(w);
    long from = w.segmentStart() / g.step() - g.neighboursBefore();
    long to = w.segmentEnd() / g.step() + g.neighboursAfter();
    copyLowBand();
    List<Onset> onsets = search.seek(rest, low.first(), low.length(), from, to);
    List<Thump> alone = new ArrayList<>();
    for (Onset o : onsets) {
      alone.add(estimator.estimate(rest, low.first(), low.length(), o, false));
    }
    List<long[]> changed = new ArrayList<>();
    for (Thump t : alone) {
      if (t != null) {
        t.add(g, rest, low.first(), low.length(), -1);
        long start = t.reference() + (long) Math.floor(t.shape().onset());
        changed.add(new long[] {start, start + g.judged() + 1});
      }
    }
    for (int i = 0; i < onsets.size(); i++) {
      Thump t = alone.get(i);
      if (t == null) {
        if (touched(onsets.get(i), changed)) {
          look(w, onsets.get(i), judged);
        }
      } else if (begins(t, w) && evidence(w, t).decibans() >= HOPELESS) {
        t.add(g, rest, low.first(), low.length(), 1);
        look(w, onsets.get(i), judged);
        t.add(g, rest, low.first(), low.length(), -1);
      }
    }
    if (!changed.isEmpty()) {
      lookForHidden(w, onsets, changed, judged);
    }
    return judged;
  }

  private void copyLowBand() {
    if (rest.length != low.channels() || rest[0].length < low.length()) {
      rest = new double[low.channels()][low.length()];
    }
    for (int c = 0; c < rest.length; c++) {
      System.arraycopy(low.channel(c), 0, rest[c], 0, low.length());
      Arrays.fill(rest[c], low.length(), rest[c].length, 0);
    }
  }

  private boolean touched(Onset o, List<long[]> changed) {
    return changed.stream()
        .anyMatch(
            range ->
                range[1] > o.instant() - g.lookBack() && range[0] < o.instant() + g.lookAhead());
  }

  /** The second look at a place, its neighbours taken out. */
  private void look(SegmentWindow w, Onset o, List<Judged> judged) {
    long frame = o.instant() * g.step();
    long margin = g.rate() / 20;
    if (frame < w.segmentStart() - margin || frame >= w.segmentEnd() + margin) {
      return;
    }
    Thump t = estimator.estimate(rest, low.first(), low.length(), o, true);
    if (t != null && begins(t, w)) {
      ThumpEvidence e = evidence(w, t);
      if (e.decibans() >= threshold) {
        t = estimator.whole(o.instant());
        e = evidence(w, t);
      }
      judged.add(new Judged(t, e));
    }
  }

  /** What drums and other thumps hid at the first search. */
  private void lookForHidden(
      SegmentWindow w, List<Onset> seen, List<long[]> changed, List<Judged> judged) {
    long margin = g.instants(0.05);
    long from = w.segmentStart() / g.step() - margin;
    long to = w.segmentEnd() / g.step() + margin;
    for (Onset o : search.seekAgain(rest, low.first(), low.length(), changed, from, to)) {
      if (seen.stream().allMatch(s -> Math.abs(s.instant() - o.instant()) > g.instants(0.03))
          && judged.stream().noneMatch(j -> disturbs(j, o))) {
        look(w, o, judged);
      }
    }
  }

  private boolean disturbs(Judged j, Onset o) {
    long after = o.instant() - j.thump().reference();
    return j.decibans() >= threshold && after > -g.instants(0.15) && after < g.judged();
  }

  private ThumpEvidence evidence(SegmentWindow w, Thump t) {
    return ThumpEvidence.of(t, brightness.rise(w, t), brightness.level(w, t));
  }

  private boolean begins(Thump t, SegmentWindow w) {
    // the estimate alone and the one with neighbours may differ by a little; only the latter counts
    long start = t.frontFrame(g);
    return start >= w.segmentStart() - g.rate() / 50 && start < w.segmentEnd() + g.rate() / 50;
  }
}
