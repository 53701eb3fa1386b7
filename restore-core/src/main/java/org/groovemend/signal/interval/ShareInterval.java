package org.groovemend.signal.interval;

/**
 * Interval of an unknown share of which a count was seen: the score interval of E. B. Wilson,
 * "Probable inference, the law of succession, and statistical inference", J. Am. Stat. Assoc. 22,
 * 1927. Never empty, never outside 0 to 1, sensible at 0 and at all.
 *
 * @param low 0 to 1
 * @param high 0 to 1
 */
public record ShareInterval(double low, double high) {
  /** Upper quantile of 2.5 % of the standard normal distribution. */
  private static final double Z = 1.959963984540054;

  /**
   * The interval that holds the share in 95 % of cases.
   *
   * @param found 0 to {@code of}
   * @param of at least 0; nothing tried gives 0 to 1
   */
  public static ShareInterval wilson(int found, int of) {
    if (found < 0 || found > of) {
      throw new IllegalArgumentException(found + " found of " + of);
    }
    if (of == 0) {
      return new ShareInterval(0, 1);
    }
    double share = found / (double) of;
    double middle = share + Z * Z / (2 * of);
    double half = Z * Math.sqrt(share * (1 - share) / of + Z * Z / (4.0 * of * of));
    double all = 1 + Z * Z / of;
    return new ShareInterval(
        found == 0 ? 0 : Math.max(0, (middle - half) / all),
        found == of ? 1 : Math.min(1, (middle + half) / all));
  }
}
