package org.groovemend.bands;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.signal.robust.Median;

/**
 * What the bare groove sounds like at every moment of a side: the level of each row of {@link
 * CellLevels}, learned where the groove is alone and evenly led over from one such place to the
 * next, and how far a single cell strays from it.
 */
final class GrooveFloor {

  /** A row strays at least so far, in dB, beside chance: the groove noise swings with the disc. */
  private static final double SWING_DB = 1.0;

  /** Standard deviation of 10 log10 of an exponential deviate is 5.57 dB; of a mean of n, about: */
  private static final double ONE_LINE_DB = 4.343;

  private final CellLevels levels;
  private final List<Knot> knots = new ArrayList<>();
  private final double[] spread;

  private record Knot(int cell, double[] level) {}

  GrooveFloor(CellLevels levels) {
    this.levels = levels;
    this.spread = new double[levels.rows()];
    for (int r = 0; r < spread.length; r++) {
      spread[r] = Math.sqrt(chance(r) * chance(r) + SWING_DB * SWING_DB);
    }
  }

  /** Standard deviation that chance alone gives a row of steady noise, dB. */
  double chance(int row) {
    // a Hann window makes neighbouring lines depend on each other
    // and the median of five cells that overlap by half is worth about two of them
    return ONE_LINE_DB / Math.sqrt(Math.max(1, 2 * levels.lines(row) / 1.5));
  }

  boolean empty() {
    return knots.isEmpty();
  }

  /** Learns from the cells {@code [from, to)}, a few at least, later than those before. */
  void learn(int from, int to) {
    double[] level = new double[levels.rows()];
    double[] of = new double[to - from];
    for (int r = 0; r < level.length; r++) {
      level[r] = median(r, from, to, of);
      if (of.length >= 40) {
        for (int i = 0; i < of.length; i++) {
          of[i] = Math.abs(levels.level(r, from + i) - level[r]);
        }
        // 1.4826: standard deviation of a normal deviate over its median deviation
        double strays = 1.4826 * Median.of(of, 0, of.length);
        spread[r] = Math.max(spread[r], Math.min(strays, 6));
      }
    }
    knots.add(new Knot((from + to) / 2, level));
  }

  private double median(int row, int from, int to, double[] of) {
    for (int i = from; i < to; i++) {
      of[i - from] = levels.level(row, i);
    }
    return Median.of(of, 0, to - from);
  }

  double spread(int row) {
    return spread[row];
  }

  /** Floor of every row at a cell. */
  void at(int cell, double[] out) {
    int k = 0;
    while (k < knots.size() && knots.get(k).cell() <= cell) {
      k++;
    }
    Knot before = knots.get(Math.max(0, k - 1));
    Knot behind = knots.get(Math.min(knots.size() - 1, k));
    double share =
        before == behind ? 0 : (cell - before.cell()) / (double) (behind.cell() - before.cell());
    share = Math.max(0, Math.min(1, share));
    for (int r = 0; r < out.length; r++) {
      out[r] = before.level()[r] + share * (behind.level()[r] - before.level()[r]);
    }
  }

  /** Mean level over the rows from a frequency up at a cell, dB. */
  double mean(int cell, double hertz) {
    double[] all = new double[levels.rows()];
    at(cell, all);
    double sum = 0;
    int n = 0;
    for (int r = 0; r < all.length; r++) {
      if (levels.above(r, hertz)) {
        sum += all[r];
        n++;
      }
    }
    return sum / Math.max(1, n);
  }
}
