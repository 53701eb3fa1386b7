package org.groovemend.thump;

import java.util.Arrays;
import java.util.List;
import org.groovemend.click.GapFill;
import org.groovemend.stage.Repair;
import org.groovemend.stage.SegmentWindow;

/**
 * Makes repairs of thumps: the ring to take away, and the front filled. One instance per thread.
 */
final class ThumpRemoval {
  /** What is filled for certain after the onset, in seconds. */
  private static final double FRONT_AFTER = 0.0015;

  private static final double LONGEST_FRONT_MILLISECONDS = 8;

  /** Share of the strongest channel's ring under which a channel is left alone. */
  private static final double FAINT = 1e-3;

  private final ThumpGeometry g;
  private final double threshold;
  private final GapFill filler;
  private final EarlyDamage early;
  private final double[] fill;
  private final double[] ring;
  private final double[] work;
  private final double[] around;
  private final double[] mirrored;

  ThumpRemoval(ThumpGeometry g, double threshold) {
    this.g = g;
    this.threshold = threshold;
    this.filler = new GapFill(g.rate(), LONGEST_FRONT_MILLISECONDS);
    this.early = new EarlyDamage(g.rate());
    this.fill = new double[filler.longestGap()];
    this.ring = new double[g.tail() * g.step() + 1];
    this.work = new double[ring.length];
    this.around = new double[2 * ring.length];
    this.mirrored = new double[around.length];
  }

  /** Adds the repair of one channel, unless it begins outside the segment or is nothing. */
  void add(SegmentWindow w, Judged j, int c, List<Repair> repairs) {
    Thump t = j.thump();
    long start = t.frontFrame(g);
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
                threshold,
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
    int earlier = 0;
    if (early.seen(around, before)) {
      for (int i = 0; i < n; i++) {
        mirrored[i] = around[n - 1 - i];
      }
      int reach = filler.fill(mirrored, n, after - gap, after, fill) - gap;
      earlier = Math.max(0, Math.min(before, reach));
    }
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
