package org.groovemend.signal.interval;

import org.groovemend.signal.special.IncompleteGamma;

/**
 * Interval of the rate of a Poisson process of which a count was seen: the middle 95 % of the gamma
 * distribution with shape {@code count + 1/2}, which is what is known of the rate after the count
 * under the prior of H. Jeffreys ("An invariant form for the prior probability in estimation
 * problems", Proc. R. Soc. A 186, 1946).
 *
 * @param low not negative
 * @param high above {@code low}; infinite if nothing was observed
 */
public record RateInterval(double low, double high) {

  /**
   * The interval that holds the rate in 95 % of cases.
   *
   * @param count not negative; need not be whole where it is itself an expectation
   * @param time how long was observed; the rates are per unit of it
   */
  public static RateInterval gamma(double count, double time) {
    if (!(count >= 0)) {
      throw new IllegalArgumentException("a count of " + count);
    }
    if (!(time > 0)) {
      return new RateInterval(0, Double.POSITIVE_INFINITY);
    }
    double shape = count + 0.5;
    return new RateInterval(
        IncompleteGamma.quantile(shape, 0.025) / time,
        IncompleteGamma.quantile(shape, 0.975) / time);
  }
}
