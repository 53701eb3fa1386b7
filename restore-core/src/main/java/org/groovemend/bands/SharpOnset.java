package org.groovemend.bands;

import java.util.Arrays;

/**
 * Puts the soft beginning of a band where it is first heard, once it is known to begin soon after:
 * the rows in which it is heard are weighed by how much they stand out there, and the cell is taken
 * from which on this sum stays beyond the scatter it has in the gap before. What all rows have in
 * common, as when the noise swings with the disc, counts for nothing.
 */
final class SharpOnset {

  private static final double HEARD_SECONDS = 0.25;
  private static final double BACK_SECONDS = 0.7;
  private static final double GAP_SECONDS = 2.5;
  private static final double DEVIATIONS = 3;
  private static final double LEAST_SCATTER_DB = 0.4;
  private static final double MOST_DB = 12;
  private static final int REST_CELLS = 3;

  private final CellLevels levels;
  private final GrooveFloor floor;
  private final double cellSeconds;
  private final double[] base;
  private final double[] above;
  private final double[] sorted;
  private final double[] weight;

  SharpOnset(CellLevels levels, GrooveFloor floor, double cellSeconds) {
    this.levels = levels;
    this.floor = floor;
    this.cellSeconds = cellSeconds;
    this.base = new double[levels.rows()];
    this.above = new double[levels.rows()];
    this.sorted = new double[levels.rows()];
    this.weight = new double[levels.rows()];
  }

  /**
   * The cell for a gap of cells {@code [from, to)} behind which a band begins; at most {@code to}.
   */
  int of(int from, int to) {
    int heard = cells(HEARD_SECONDS);
    int back = Math.max(from + (to - from) / 2, to - cells(BACK_SECONDS));
    int gapFrom = Math.max(from + (to - from) / 5, back - cells(GAP_SECONDS));
    if (to + heard > levels.cells() || back - gapFrom < 8) {
      return to;
    }
    Arrays.fill(weight, 0);
    for (int i = to; i < to + heard; i++) {
      excess(i);
      for (int r = 0; r < weight.length; r++) {
        weight[r] += above[r] / heard;
      }
    }
    double total = 0;
    for (int r = 0; r < weight.length; r++) {
      double stands = Math.max(0, Math.min(MOST_DB, weight[r] - 2)) / floor.spread(r);
      weight[r] = stands * stands;
      total += weight[r];
    }
    if (total == 0) {
      return to;
    }
    double[] y = new double[to - gapFrom];
    for (int i = gapFrom; i < to; i++) {
      excess(i);
      for (int r = 0; r < weight.length; r++) {
        y[i - gapFrom] += weight[r] / total * above[r];
      }
    }
    double mean = 0;
    double square = 0;
    int n = back - gapFrom;
    for (int i = 0; i < n; i++) {
      mean += y[i] / n;
      square += y[i] * y[i] / n;
    }
    double scatter = Math.sqrt(Math.max(0, square - mean * mean));
    double limit = mean + DEVIATIONS * Math.max(LEAST_SCATTER_DB, scatter);
    int onset = to;
    // notes may sink below the limit for a moment
    for (int i = to - 1, below = 0; i >= back && below <= REST_CELLS; i--) {
      if (y[i - gapFrom] > limit) {
        onset = i;
        below = 0;
      } else {
        below++;
      }
    }
    return onset;
  }

  /** By how much every row lies above the floor, less what the quieter ones have in common. */
  private void excess(int cell) {
    floor.at(cell, base);
    int n = 0;
    for (int r = 0; r < base.length; r++) {
      above[r] = levels.level(r, cell) - base[r];
      if (levels.above(r, GapSearch.TELLING_HZ)) {
        sorted[n++] = above[r];
      }
    }
    Arrays.sort(sorted, 0, n);
    double common = n == 0 ? 0 : Math.min(GapSearch.SLACK_DB, sorted[n / 3]);
    for (int r = 0; r < above.length; r++) {
      above[r] -= common;
    }
  }

  private int cells(double seconds) {
    return (int) Math.round(seconds / cellSeconds);
  }
}
