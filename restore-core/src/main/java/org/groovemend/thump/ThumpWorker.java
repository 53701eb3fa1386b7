package org.groovemend.thump;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.click.GapFill;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;

/**
 * One thread's share of the work: onsets, separation of each alone, then again with its neighbours
 * taken out, decision, and the front filled.
 */
final class ThumpWorker implements RepairStage.Worker {
  /** What is filled for certain, before and after the onset, in seconds. */
  private static final double FRONT_BEFORE = 0.001;

  private static final double FRONT_AFTER = 0.0015;
  private static final double LONGEST_FRONT_MILLISECONDS = 8;

  /** Share of the strongest channel's ring under which a channel is left alone. */
  private static final double FAINT = 1e-3;

  /** Evidence of the first look under which a place is not looked at again, in decibans. */
  private static final double HOPELESS = -12;

  private final ThumpParameters parameters;
  private final ThumpGeometry g;
  private final LowBand low;
  private final OnsetSearch search;
  private final ThumpEstimator estimator;
  private final Brightness brightness;
  private final GapFill filler;
  private final double[] fill;
  private final double[] ring;
  private final double[] work;
  private final double[] around;
  private final double[] mirrored;

  ThumpWorker(ThumpParameters p, AudioFormat format) {
    this.parameters = p;
    this.g = ThumpGeometry.of(p, format.sampleRateHz());
    this.low = new LowBand(g);
    this.search = new OnsetSearch(g, format.channels());
    this.estimator = new ThumpEstimator(g, format.channels());
    this.brightness = new Brightness(g);
    this.filler = new GapFill(g.rate(), LONGEST_FRONT_MILLISECONDS);
    this.fill = new double[filler.longestGap()];
    this.ring = new double[g.tail() * g.step() + 1];
    this.work = new double[ring.length];
    this.around = new double[2 * ring.length];
    this.mirrored = new double[around.length];
  }

  @Override
  public List<Repair> repair(SegmentWindow w) {
    List<Repair> repairs = new ArrayList<>();
    for (Judged j : judge(w)) {
      if (j.decibans() >= parameters.evidenceDecibans()) {
        for (int c = 0; c < w.channels(); c++) {
          addRepair(w, j, c, repairs);
        }
      }
    }
    repairs.sort(
        (p, q) ->
            p.start() != q.start()
                ? Long.compare(p.start(), q.start())
                : p.channel() - q.channel());
    return repairs;
  }

  /** A place that was looked at closely. */
  record Judged(Thump thump, ThumpEvidence evidence) {
    double decibans() {
      return evidence.decibans();
    }
  }

  /** All places whose repair would begin within the segment. */
  List<Judged> judge(SegmentWindow w) {
    List<Judged> judged = new ArrayList<>();
    if (parameters.isNeutral() || w.length() == 0) {
      return judged;
    }
    low.load(w);
    long from = w.segmentStart() / g.step() - g.neighboursBefore();
    long to = w.segmentEnd() / g.step() + g.neighboursAfter();
    double[][] rest = new double[low.channels()][];
    for (int c = 0; c < rest.length; c++) {
      rest[c] = Arrays.copyOf(low.channel(c), low.length());
    }
    List<Onset> onsets = search.seek(rest, low.first(), low.length(), from, to);
    List<Thump> alone = new ArrayList<>();
    for (Onset o : onsets) {
      alone.add(estimator.estimate(rest, low.first(), low.length(), o, false));
    }
    for (Thump t : alone) {
      if (t != null) {
        t.add(g, rest, low.first(), low.length(), -1);
      }
    }
    for (int i = 0; i < onsets.size(); i++) {
      Thump t = alone.get(i);
      if (t == null) {
        look(rest, w, onsets.get(i), judged);
      } else if (begins(t, w) && evidence(w, t).decibans() >= HOPELESS) {
        t.add(g, rest, low.first(), low.length(), 1);
        look(rest, w, onsets.get(i), judged);
        t.add(g, rest, low.first(), low.length(), -1);
      }
    }
    lookForHidden(rest, w, onsets, judged);
    return judged;
  }

  /** The second look at a place, its neighbours taken out. */
  private void look(double[][] rest, SegmentWindow w, Onset o, List<Judged> judged) {
    long frame = o.instant() * g.step();
    long margin = g.rate() / 20;
    if (frame < w.segmentStart() - margin || frame >= w.segmentEnd() + margin) {
      return;
    }
    Thump t = estimator.estimate(rest, low.first(), low.length(), o, true);
    if (t != null && begins(t, w)) {
      judged.add(new Judged(t, evidence(w, t)));
    }
  }

  /** What drums and other thumps hid at the first search. */
  private void lookForHidden(
      double[][] rest, SegmentWindow w, List<Onset> seen, List<Judged> judged) {
    long margin = g.instants(0.05);
    long from = w.segmentStart() / g.step() - margin;
    long to = w.segmentEnd() / g.step() + margin;
    for (Onset o : search.seek(rest, low.first(), low.length(), from, to)) {
      if (seen.stream().allMatch(s -> Math.abs(s.instant() - o.instant()) > g.instants(0.03))
          && judged.stream().noneMatch(j -> disturbs(j, o))) {
        look(rest, w, o, judged);
      }
    }
  }

  private boolean disturbs(Judged j, Onset o) {
    long after = o.instant() - j.thump().reference();
    return j.decibans() >= parameters.evidenceDecibans()
        && after > -g.instants(0.15)
        && after < g.judged();
  }

  private ThumpEvidence evidence(SegmentWindow w, Thump t) {
    return ThumpEvidence.of(t, brightness.rise(w, t), brightness.level(w, t));
  }

  private boolean begins(Thump t, SegmentWindow w) {
    // the estimate alone and the one with neighbours may differ by a little; only the latter counts
    long start = start(t);
    return start >= w.segmentStart() - g.rate() / 50 && start < w.segmentEnd() + g.rate() / 50;
  }

  private long start(Thump t) {
    return Math.max(0, t.onsetFrame(g) - Math.round(FRONT_BEFORE * g.rate()));
  }

  private void addRepair(SegmentWindow w, Judged j, int c, List<Repair> repairs) {
    Thump t = j.thump();
    long start = start(t);
    double strongest = 0;
    for (int k = 0; k < w.channels(); k++) {
      strongest = Math.max(strongest, t.amplitude(k));
    }
    if (!(t.amplitude(c) > FAINT * strongest)) {
      return;
    }
    long onset = Math.max(0, t.onsetFrame(g));
    int most = (int) Math.min(ring.length, w.sideFrames() - onset);
    int rings = (int) Math.min(most, Math.ceil(t.seconds(g) * g.rate()));
    if (rings <= 0) {
      return;
    }
    t.write(g, c, rings, ring, work);
    int lead = (int) (onset - start);
    double[] removed = new double[lead + rings];
    System.arraycopy(ring, 0, removed, lead, rings);
    Front front = fillFront(w, c, start, lead, removed);
    if (front.start() < w.segmentStart() || front.start() >= w.segmentEnd()) {
      return;
    }
    removed = front.removed();
    int length = removed.length;
    while (length > 0 && removed[length - 1] == 0) {
      length--;
    }
    if (length == 0) {
      return;
    }
    double error = front.filled() > 0 ? Math.sqrt(filler.meanSquareError()) : Double.NaN;
    repairs.add(
        new Repair(
            c,
            front.start(),
            Arrays.copyOf(removed, length),
            new Repair.Evidence(
                j.decibans(),
                parameters.evidenceDecibans(),
                "thump",
                ThumpGeometry.ORDER,
                front.start(),
                front.filled(),
                20 * StrictMath.log10(error))));
  }

  /**
   * Fills the burst at the front, as it is once the ring is taken out: from the frame before which
   * nothing is seen of it to the one after.
   *
   * @param start first frame of what is removed
   * @param lead frames from there to the onset
   * @param removed the ring, from {@code start} on
   */
  private Front fillFront(SegmentWindow w, int c, long start, int lead, double[] removed) {
    double[] x = w.samples()[c];
    int at = (int) (start - w.firstFrame());
    int before = Math.min(at, around.length / 2);
    int after = Math.min(Math.min(removed.length, around.length / 2), w.length() - at);
    for (int i = -before; i < after; i++) {
      around[before + i] = x[at + i] - (i >= 0 ? removed[i] : 0);
    }
    int gap = Math.min(after, lead + (int) Math.round(FRONT_AFTER * g.rate()));
    int n = before + after;
    for (int i = 0; i < n; i++) {
      mirrored[i] = around[n - 1 - i];
    }
    int reach = filler.fill(mirrored, n, after - gap, after, fill) - gap;
    int earlier = Math.max(0, Math.min(before, reach));
    int filled = filler.fill(around, n, before - earlier, before + gap, fill);
    double[] whole = new double[earlier + Math.max(removed.length, filled - earlier)];
    System.arraycopy(removed, 0, whole, earlier, removed.length);
    for (int i = 0; i < filled; i++) {
      whole[i] = x[at - earlier + i] - fill[i];
    }
    return new Front(start - earlier, filled, whole);
  }

  /** What is removed, its front filled for {@code filled} frames from {@code start} on. */
  private record Front(long start, int filled, double[] removed) {}
}
