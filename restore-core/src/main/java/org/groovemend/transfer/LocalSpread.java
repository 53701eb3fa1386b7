package org.groovemend.transfer;

/**
 * How much the words around a place vary, in steps of the words; measured where it is asked, in
 * plain means.
 */
final class LocalSpread {

  /** Standard deviation of a normal distribution over its mean magnitude. */
  private static final double NORMAL = Math.sqrt(Math.PI / 2);

  /** Below this many steps, words without dither follow one another by rule and not by chance. */
  private static final double LEAST_SPREAD = 2;

  private final int neighbours;
  private double level;
  private double unpredicted;
  private double meanStep;

  LocalSpread(int neighbours) {
    this.neighbours = neighbours;
  }

  /**
   * Looks at the frames before {@code start} and behind {@code end}; the calmer side counts for
   * what is unpredicted, the softer one for the level.
   */
  void measure(long[] w, int start, int end, int length, double step) {
    double[] before = of(w, Math.max(0, start - neighbours), start, step);
    double[] after = of(w, end, Math.min(length, end + neighbours), step);
    level = smaller(before, after, 0);
    unpredicted = smaller(before, after, 1);
    meanStep = smaller(before, after, 2) * step;
  }

  private static double smaller(double[] before, double[] after, int at) {
    if (before == null || after == null) {
      return before != null ? before[at] : after != null ? after[at] : 0;
    }
    return Math.min(before[at], after[at]);
  }

  /** Level, unpredicted part, mean step; null for too few frames. */
  private static double[] of(long[] w, int from, int to, double step) {
    int n = to - from;
    if (n < 16) {
      return null;
    }
    double sum = 0;
    double first = 0;
    double second = 0;
    double third = 0;
    for (int i = from; i < to; i++) {
      sum += Math.abs((double) w[i]);
      if (i >= from + 3) {
        double d1 = (double) w[i] - w[i - 1];
        double d2 = d1 - ((double) w[i - 1] - w[i - 2]);
        double d3 = d2 - ((double) w[i - 1] - 2.0 * w[i - 2] + w[i - 3]);
        first += Math.abs(d1);
        second += Math.abs(d2);
        third += Math.abs(d3);
      }
    }
    double m = NORMAL / ((n - 3) * step);
    // white noise leaves sqrt(2), sqrt(6), sqrt(20) of its spread in its differences
    double least =
        Math.min(first / Math.sqrt(2), Math.min(second / Math.sqrt(6), third / Math.sqrt(20)));
    return new double[] {sum * NORMAL / (n * step), least * m, first / ((n - 3) * step)};
  }

  /** Mean distance of neighbouring words around the place. */
  double meanStep() {
    return meanStep;
  }

  /** Weight of one word being what is predicted. */
  double natsForEqual() {
    return nats(unpredicted);
  }

  /** Weight of one word being zero. */
  double natsForZero() {
    return nats(level);
  }

  private static double nats(double spread) {
    return spread < LEAST_SPREAD ? 0 : StrictMath.log(Math.sqrt(2 * Math.PI) * spread);
  }
}
