package org.groovemend.leadin;

/**
 * How loud the whole side is, slice by slice: a histogram in steps of half a decibel, of all slices
 * that are not silent.
 */
final class LevelCensus {

  private static final double LOWEST_DB = -200;
  private static final int STEPS = 420;
  private final long[] count = new long[STEPS];
  private long total;

  void add(Slice slice) {
    if (!slice.silent()) {
      count[index(slice.meanSquare())]++;
      total++;
    }
  }

  private static int index(double meanSquare) {
    double db = 10 * StrictMath.log10(Math.max(meanSquare, 1e-20));
    return (int) Math.max(0, Math.min(STEPS - 1, (db - LOWEST_DB) * 2));
  }

  long total() {
    return total;
  }

  /**
   * Share of the slices quieter than a mean square.
   *
   * @param leftOut slices known to be quieter that do not count: what lies before the needle drop
   */
  double shareBelow(double meanSquare, int leftOut) {
    long below = 0;
    int end = index(meanSquare);
    for (int i = 0; i < end; i++) {
      below += count[i];
    }
    return total <= leftOut ? 0 : Math.max(0, below - leftOut) / (double) (total - leftOut);
  }
}
