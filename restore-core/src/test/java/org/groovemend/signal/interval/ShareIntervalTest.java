package org.groovemend.signal.interval;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShareIntervalTest {
  /** Examples and score limits of R. G. Newcombe, Statistics in Medicine 17, 1998, table I. */
  @ParameterizedTest
  @CsvSource({
    "81, 263, 0.2553, 0.3662",
    "15, 148, 0.0624, 0.1605",
    "0, 20, 0.0000, 0.1611",
    "1, 29, 0.0061, 0.1718"
  })
  void publishedExamplesComeOut(int found, int of, double low, double high) {
    ShareInterval interval = ShareInterval.wilson(found, of);
    assertThat(interval.low()).isCloseTo(low, within(5e-5));
    assertThat(interval.high()).isCloseTo(high, within(5e-5));
    ShareInterval other = ShareInterval.wilson(of - found, of);
    assertThat(other.low()).isCloseTo(1 - interval.high(), within(1e-12));
  }

  @Test
  void nothingTriedTellsNothingAndMoreFoundThanTriedIsRefused() {
    assertThat(ShareInterval.wilson(0, 0)).isEqualTo(new ShareInterval(0, 1));
    assertThatThrownBy(() -> ShareInterval.wilson(3, 2))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
