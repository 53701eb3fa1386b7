package org.groovemend.click;

/**
 * The last fill of a gap, on a {@link Rung} by the length of the gap, with the other groove wall as
 * a witness where it is sound. One instance per thread.
 */
final class Ladder {
  /** Longest gaps of the first two rungs at 44.1 and 48 kHz: about 1 and 5 ms. */
  private static final int SHORT = 48;

  private static final int LONG = 240;

  /** Longest gap, about 0.25 ms, to which a higher order without the other wall brings nothing. */
  private static final int BRIEF = 12;

  private final int rounds;
  private final int scale;
  private final OtherWall wall;

  /** By rising length of gap; those the longest gap does not need are null. */
  private final Rung[] rungs = new Rung[3];

  private final Rung first;
  private final double[] kept;
  private Rung used;
  private boolean aided;

  /**
   * @param rounds of fitting and filling, those of the first fill included; more than 2
   */
  Ladder(ClickGeometry g, int rounds, int longestGap) {
    this.rounds = rounds;
    scale = g.hop() / 1024;
    wall = new OtherWall(8 * scale, 1024, longestGap);
    kept = new double[longestGap];
    int order = g.repairOrder();
    int high = Math.min(2048, 4 * order * scale);
    int brief = SHORT * scale;
    int low = Math.min(high, 2 * order);
    // so that context, order and gap fit a transform of a power of two
    rungs[0] = new Rung(low, Math.min(g.longContext(), (4096 * scale - low / 2) - brief), brief);
    first = new Rung(order, g.repairContext(), BRIEF * scale);
    if (longestGap > brief) {
      rungs[1] = new Rung(high, Math.min(g.longContext(), 4096 * scale), LONG * scale);
    }
    if (longestGap > LONG * scale) {
      rungs[2] = new Rung(high, g.longContext(), longestGap);
    }
  }

  /**
   * Fills [start, close) anew.
   *
   * @param x with first guesses in all gaps
   * @param y other channel with first guesses in its gaps, same indices; null if there is none
   * @param core samples of the gap that were found damaged; the rest was added when it was filled
   * @param out holds the first fill; receives the new one if it is good
   * @return whether it is
   */
  boolean climb(
      double[] x,
      boolean[] gaps,
      double[] y,
      boolean[] otherGaps,
      int start,
      int close,
      int core,
      int from,
      int to,
      double[] out) {
    aided = false;
    int m = close - start;
    int step = m <= SHORT * scale ? 0 : m <= LONG * scale ? 1 : 2;
    Rung rung = rungs[step];
    if (rung == null) {
      return false;
    }
    int margin = Math.max(48 * scale, core) + wall.taps();
    boolean sound =
        y != null && sound(otherGaps, Math.max(from, start - margin), Math.min(to, close + margin));
    if (sound) {
      System.arraycopy(x, start, kept, 0, m);
      System.arraycopy(out, 0, x, start, m);
      sound = wall.fit(x, y, start, close, from, to);
      System.arraycopy(kept, 0, x, start, m);
    }
    if (!sound && m <= BRIEF * scale) {
      rung = first;
    }
    int again = step == 0 ? rounds - 2 : rounds - 1;
    used = rung;
    aided = sound;
    return rung.fill(x, gaps, y, sound ? wall : null, start, close, from, to, again, out);
  }

  private static boolean sound(boolean[] gaps, int from, int to) {
    for (int n = from; n < to; n++) {
      if (gaps[n]) {
        return false;
      }
    }
    return true;
  }

  /** Whether the last fill went by the other groove wall as well. */
  boolean aided() {
    return aided;
  }

  /** Order of the model that made the last fill. */
  int order() {
    return used.order();
  }

  /** Expected mean square error of the last fill. */
  double meanSquareError() {
    return used.meanSquareError();
  }
}
