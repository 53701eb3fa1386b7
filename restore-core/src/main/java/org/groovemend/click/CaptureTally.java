package org.groovemend.click;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Adds up what clicks say about the capture curve.
 *
 * <p>The likelihood ratio of a click takes the music for what its model says and is too sure: on a
 * flat transfer with drums one click in fifty speaks strongly for the curve. So each ratio counts
 * for what it was found to be worth ({@link #weight}), from 14,000 clicks of seven pieces of
 * invented music with artificial damage of both kinds, and never for more than {@value #MOST}.
 * Ratios against the curve count for what they are worth on the two hardest pieces.
 */
final class CaptureTally {
  /** The most one click may add, natural logarithm. */
  static final double MOST = 3;

  private static final double[] RATIOS = {-16, -6, -3, -1.5, -0.75, 0, 0.75, 1.5, 3, 6, 12, 24};
  private static final double[] WEIGHTS = {
    -2, -1.5, -0.8, -0.55, -0.3, 0, 0, 0.3, 0.9, 1.5, 2.2, MOST
  };

  private static final double DECIBANS = 10 / StrictMath.log(10);

  /** Fewer clicks give no verdict. */
  private static final int LEAST_CLICKS = 12;

  /** Sum over the root of the sum of squares: clicks of random sign reach it once in forty. */
  private static final double LEAST_AGREEMENT = 2;

  private static final double SETTLED_DECIBANS = 100;
  private static final int SETTLED_CLICKS = 40;
  private static final int MOST_CLICKS = 1000;

  private double sum;
  private double squares;
  private double highest;
  private double lowest;
  private int clicks;
  private int forCurve;
  private int forFlat;

  /** A click in one channel; its size over the surroundings in any unit. */
  record Heard(long start, double size, double logRatio) {}

  /** What a click's log likelihood ratio is worth. */
  static double weight(double logRatio) {
    int last = RATIOS.length - 1;
    double x = Math.max(RATIOS[0], Math.min(RATIOS[last], logRatio));
    int i = 1;
    while (i < last && x > RATIOS[i]) {
      i++;
    }
    double share = (x - RATIOS[i - 1]) / (RATIOS[i] - RATIOS[i - 1]);
    return WEIGHTS[i - 1] + share * (WEIGHTS[i] - WEIGHTS[i - 1]);
  }

  /**
   * Adds the clicks of a stretch in any order; what begins within {@code near} frames is one click
   * in two walls: the wall where it is larger has the say.
   */
  void add(List<Heard> heard, int near) {
    List<Heard> ordered = new ArrayList<>(heard);
    ordered.sort(
        Comparator.comparingLong(Heard::start)
            .thenComparingDouble(Heard::size)
            .thenComparingDouble(Heard::logRatio));
    for (int i = 0; i < ordered.size(); ) {
      Heard larger = ordered.get(i);
      long start = larger.start();
      for (i++; i < ordered.size() && ordered.get(i).start() - start < near; i++) {
        larger = ordered.get(i).size() > larger.size() ? ordered.get(i) : larger;
      }
      addOne(weight(larger.logRatio()));
    }
  }

  private void addOne(double weight) {
    sum += weight;
    squares += weight * weight;
    highest = Math.max(highest, weight);
    lowest = Math.min(lowest, weight);
    clicks++;
    if (weight > 0) {
      forCurve++;
    } else if (weight < 0) {
      forFlat++;
    }
  }

  /** Whether more clicks can hardly change the verdict, or enough have been heard. */
  boolean settled() {
    return clicks >= MOST_CLICKS
        || (clicks >= SETTLED_CLICKS && certain() > SETTLED_DECIBANS && agreed());
  }

  private double certain() {
    return DECIBANS * Math.max(0, sum > 0 ? sum - highest : lowest - sum);
  }

  private boolean agreed() {
    return Math.abs(sum) > LEAST_AGREEMENT * Math.sqrt(squares);
  }

  CaptureFinding finding(double seconds) {
    boolean decided =
        clicks >= LEAST_CLICKS && certain() >= CaptureFinding.LEAST_DECIBANS && agreed();
    String verdict = !decided ? CaptureFinding.UNDECIDED : sum > 0 ? "riaa" : "flat";
    return new CaptureFinding(
        verdict, DECIBANS * sum, certain(), clicks, forCurve, forFlat, seconds);
  }
}
