package org.groovemend.signal.special;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class BesselTest {
  /** Abramowitz and Stegun, table 9.8: exp(-x) I0(x). */
  @Test
  void besselFunctionAsTabulated() {
    assertThat(Math.exp(Bessel.logI0(1) - 1)).isCloseTo(0.4657596077, within(1e-9));
    assertThat(Math.exp(Bessel.logI0(5) - 5)).isCloseTo(0.1835408126, within(1e-9));
    assertThat(Math.exp(Bessel.logI0(10) - 10)).isCloseTo(0.1278333372, within(1e-9));
    assertThat(Bessel.logI0(30.0001) - Bessel.logI0(29.9999)).isCloseTo(2e-4, within(1e-5));
  }
}
