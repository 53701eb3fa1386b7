package org.groovemend.overview;

import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;

/**
 * Where the bulk of some sides lies.
 *
 * @param count sides of which the value is known
 * @param median on the scale of {@link Measure#scaled}; NaN if none is known
 * @param spread standard deviation as the bulk has it, on the same scale
 */
record Spread(int count, double median, double spread) {

  /**
   * @param values known ones, on the scale of comparison; rearranged
   * @param least spread that is told
   */
  static Spread of(double[] values, double least) {
    int n = values.length;
    if (n == 0) {
      return new Spread(0, Double.NaN, Double.NaN);
    }
    double median = median(values);
    double[] away = new double[n];
    for (int i = 0; i < n; i++) {
      away[i] = Math.abs(values[i] - median);
    }
    return new Spread(n, median, Math.max(least, RobustScale.NORMAL * median(away)));
  }

  /** Mean of the two in the middle if the count is even. */
  private static double median(double[] v) {
    int n = v.length;
    double upper = Median.select(v, 0, n, n / 2);
    return n % 2 == 1 ? upper : (upper + Median.select(v, 0, n, n / 2 - 1)) / 2;
  }

  /** How many of these deviations a value is away. */
  double score(double scaled) {
    return (scaled - median) / spread;
  }
}
