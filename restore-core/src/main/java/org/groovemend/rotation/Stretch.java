package org.groovemend.rotation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * A stretch of periods, judged by the rows in it.
 *
 * @param period its middle, seconds
 * @param wide half its width, as a share of the period
 * @param logChance natural logarithm of the probability, at most, that random ticks look like that
 * @param rows where the rows are from
 * @param found the rows that share no tick, the most surprising first
 */
record Stretch(double period, double wide, double logChance, EvenRows rows, List<EvenRow> found) {

  /** Ticks that a scratch has at least. */
  static final int FEWEST_TICKS = 5;

  private static final int[] COUNTS = {1, 2, 3, 4, 6, 8, 12, 16, 24, 32};
  private static final double CHANCE_OF_A_SCRATCH = 0.05;
  private static final double LEAST_LOG = -700;

  /** Looks for rows in a stretch; null if there are none. */
  static Stretch around(EvenRows rows, double period, double wide) {
    List<EvenRow> near = rows.between(period * (1 - wide), period * (1 + wide));
    return near.isEmpty() ? null : of(rows, near, period, wide);
  }

  /** Judges a stretch by the rows that lie in it. */
  static Stretch of(EvenRows rows, List<EvenRow> inside, double period, double wide) {
    List<EvenRow> apart = apart(inside);
    double least = 0;
    int tried = 0;
    for (int count : COUNTS) {
      if (count > apart.size()) {
        break;
      }
      tried++;
      double mean = rows.expected(apart.get(count - 1).surprise(), 2 * wide * period);
      least = Math.min(least, logOfAtLeast(count, mean));
    }
    return new Stretch(
        period, wide, least + StrictMath.log(Math.max(1, tried)), rows, List.copyOf(apart));
  }

  Stretch withLogChance(double other) {
    return new Stretch(period, wide, other, rows, found);
  }

  /** The most surprising rows first, none with a tick of one before it. */
  private static List<EvenRow> apart(List<EvenRow> rows) {
    List<EvenRow> sorted = new ArrayList<>(rows);
    sorted.sort(
        Comparator.comparingDouble(EvenRow::surprise)
            .reversed()
            .thenComparingInt(row -> row.members()[0])
            .thenComparingDouble(EvenRow::period));
    List<EvenRow> apart = new ArrayList<>();
    Set<Integer> taken = new HashSet<>();
    for (EvenRow row : sorted) {
      boolean free = true;
      for (int member : row.members()) {
        free &= !taken.contains(member);
      }
      if (free) {
        apart.add(row);
        for (int member : row.members()) {
          taken.add(member);
        }
      }
    }
    return apart;
  }

  /**
   * Logarithm of a bound on the probability that a Poisson variable is at least {@code count}: its
   * first term over one minus the ratio of the next.
   */
  static double logOfAtLeast(int count, double mean) {
    if (mean >= count) {
      return 0;
    }
    if (mean <= 0) {
      return LEAST_LOG;
    }
    double log = count * StrictMath.log(mean) - mean;
    for (int k = 2; k <= count; k++) {
      log -= StrictMath.log(k);
    }
    return Math.max(LEAST_LOG, Math.min(0, log - StrictMath.log1p(-mean / (count + 1))));
  }

  /** The rows that can hardly be chance by themselves. */
  List<EvenRow> told() {
    List<EvenRow> told = new ArrayList<>();
    for (EvenRow row : found) {
      if (row.members().length >= FEWEST_TICKS
          && rows.expected(row.surprise(), 2 * wide * period) <= CHANCE_OF_A_SCRATCH) {
        told.add(row);
      }
    }
    return told;
  }

  /** Share of the ticks that lie in the emptiest of the parts, over the rows that stand out. */
  double emptiestPart(int parts) {
    int all = 0;
    int emptiest = 0;
    for (EvenRow row : told()) {
      int[] counts = new int[parts];
      for (int turn : row.turns()) {
        counts[turn % parts]++;
      }
      all += row.turns().length;
      emptiest += Arrays.stream(counts).min().orElse(0);
    }
    return all == 0 ? 0 : emptiest / (double) all;
  }

  /** Median of the periods of the rows that stand out: a long scratch may drift, too. */
  double medianPeriod() {
    List<EvenRow> told = rows.joined(told());
    double[] periods =
        (told.isEmpty() ? found : told).stream().mapToDouble(EvenRow::period).sorted().toArray();
    return (periods[(periods.length - 1) / 2] + periods[periods.length / 2]) / 2;
  }
}
