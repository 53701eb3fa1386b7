package org.groovemend.signal.interval;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RateIntervalTest {
  /**
   * A gamma quantile of shape n/2 is half a chi-squared quantile of n degrees of freedom:
   * Abramowitz and Stegun, table 26.8, degrees 1, 10 and 21.
   */
  @ParameterizedTest
  @CsvSource({"0, 0.000982069, 5.02389", "4.5, 3.24697, 20.4831", "10, 10.28293, 35.4789"})
  void limitsAreHalfThoseOfTheChiSquaredTable(double count, double low, double high) {
    RateInterval interval = RateInterval.gamma(count, 2);
    assertThat(4 * interval.low()).isCloseTo(low, within(2e-5 * low));
    assertThat(4 * interval.high()).isCloseTo(high, within(2e-5 * high));
  }

  @Test
  void moreTimeNarrowsIt() {
    RateInterval brief = RateInterval.gamma(1, 1);
    RateInterval longer = RateInterval.gamma(100, 100);
    assertThat(longer.high() - longer.low()).isLessThan(0.2 * (brief.high() - brief.low()));
  }

  @Test
  void noTimeTellsNothingAndANegativeCountIsRefused() {
    assertThat(RateInterval.gamma(0, 0).high()).isInfinite();
    assertThatThrownBy(() -> RateInterval.gamma(-1, 1))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
