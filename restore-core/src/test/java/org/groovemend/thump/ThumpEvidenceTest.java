package org.groovemend.thump;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ThumpEvidenceTest {
  private static double decibans(double vertical) {
    return new ThumpEvidence(0.9, 1000, vertical, 0, 0, 30, false).decibans();
  }

  /** A blow across the groove moves the two walls unlike; breath on a microphone does not. */
  @Test
  void aRingAlikeInBothChannelsIsNoThump() {
    assertThat(decibans(0.2)).isGreaterThan(decibans(1e-5) + 20);
  }

  @Test
  void oneChannelCannotTellAndCountsLessAgainst() {
    assertThat(decibans(0)).isGreaterThan(decibans(1e-5) + 10);
    assertThat(decibans(0)).isLessThan(decibans(0.2));
  }
}
