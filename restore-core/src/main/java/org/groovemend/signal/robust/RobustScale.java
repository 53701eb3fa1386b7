package org.groovemend.signal.robust;

/** Standard deviation as the bulk of the values has it. */
public final class RobustScale {
  /**
   * 1 / (quartile of the standard normal distribution): median absolute value to standard
   * deviation.
   */
  public static final double NORMAL = 1.482602218505602;

  private RobustScale() {}

  /**
   * {@code NORMAL} times the median absolute deviation from the median; {@code work} holds {@code
   * to - from}.
   */
  public static double mad(double[] x, int from, int to, double[] work) {
    int n = to - from;
    System.arraycopy(x, from, work, 0, n);
    double centre = Median.of(work, 0, n);
    for (int i = 0; i < n; i++) {
      work[i] = Math.abs(x[from + i] - centre);
    }
    return NORMAL * Median.of(work, 0, n);
  }

  /** As {@link #mad} for values known to lie about zero: one selection instead of two. */
  public static double aboutZero(double[] x, int from, int to, double[] work) {
    int n = to - from;
    for (int i = 0; i < n; i++) {
      work[i] = Math.abs(x[from + i]);
    }
    return NORMAL * Median.of(work, 0, n);
  }
}
