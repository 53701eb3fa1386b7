package org.groovemend.thump;

import org.groovemend.stage.SegmentWindow;

/**
 * Lengths at one sampling rate. The low band is sampled at frames that are multiples of {@code
 * step}, counted from frame 0 of the side; its samples are called instants.
 *
 * @param step frames from one instant to the next
 * @param thinning frames from one to the next of those that the first low-pass filter leaves
 * @param before instants of music before a thump that its model is fitted to
 * @param tail instants that a thump may ring
 * @param after instants of music after the ring that the model is fitted to
 */
record ThumpGeometry(int rate, int step, int thinning, int before, int tail, int after) {
  /** Order of the models of the music's low band. */
  static final int ORDER = 32;

  /** Instants from one tried onset to the next. */
  static final int HOP = 4;

  private static final double INSTANTS_PER_SECOND = 2000;

  /** Fewest samples from one instant to the next after the first filter. */
  private static final int LEAST_HOP = 4;

  static ThumpGeometry of(ThumpParameters p, int rate) {
    int step = Math.max(1, (int) Math.round(rate / INSTANTS_PER_SECOND));
    double perSecond = (double) rate / step;
    int thinning = 1;
    for (int f = 2; LEAST_HOP * f <= step; f++) {
      thinning = step % f == 0 ? f : thinning;
    }
    return new ThumpGeometry(
        rate,
        step,
        thinning,
        (int) perSecond,
        (int) (p.longestThumpMilliseconds() / 1000 * perSecond),
        (int) (0.5 * perSecond));
  }

  /** Half length of the first low-pass filter, in frames. */
  int firstHalf() {
    return thinning == 1 ? 0 : 9 * thinning / 4;
  }

  /** Half length of the second, in samples that the first one leaves: 4 ms. */
  int secondHalf() {
    return (int) Math.round(0.004 * rate / thinning);
  }

  /** Half length of both, in frames. */
  private int half() {
    return firstHalf() + secondHalf() * thinning;
  }

  /** First instant of a window that the filters see whole, or that is at the edge of the side. */
  long firstInstant(SegmentWindow w) {
    long lowest = w.firstFrame() == 0 ? 0 : w.firstFrame() + half();
    return Math.floorDiv(lowest + step - 1, step);
  }

  /** Number of such instants. */
  int instantsOf(SegmentWindow w) {
    long end = w.firstFrame() + w.length();
    long highest = end == w.sideFrames() ? end - 1 : end - 1 - half();
    return (int) Math.max(0, Math.floorDiv(highest, step) - firstInstant(w) + 1);
  }

  /** Instants in a second. */
  double perSecond() {
    return (double) rate / step;
  }

  int instants(double seconds) {
    return (int) Math.round(seconds * perSecond());
  }

  /** Instants of a block that has its own model while onsets are sought. */
  int block() {
    return instants(0.5) / HOP * HOP;
  }

  /** Instants after the onset over which a thump is judged. */
  int judged() {
    return tail + instants(0.05);
  }

  /** Instants that the treatment of one thump looks back, its neighbours not counted. */
  int lookBack() {
    return before + 2 * ORDER + instants(0.02);
  }

  /** Instants that it looks ahead. */
  int lookAhead() {
    return judged() + after + ORDER + instants(0.02);
  }

  /** Instants before a segment at which a neighbour may begin that matters within it. */
  int neighboursBefore() {
    return Math.max(lookBack(), seek()) + judged() + instants(0.05);
  }

  /** Instants after a segment at which a neighbour may begin that matters within it. */
  int neighboursAfter() {
    return Math.max(lookAhead(), seek()) + instants(0.05);
  }

  /** Instants to either side that the search for onsets depends on. */
  private int seek() {
    return 5 * block() / 2 + instants(0.2);
  }

  int contextBefore() {
    return (neighboursBefore() + Math.max(lookBack(), seek())) * step + half();
  }

  int contextAfter() {
    return (neighboursAfter() + Math.max(lookAhead(), seek())) * step + half();
  }

  int segment() {
    return 10 * block() * step;
  }
}
