package org.groovemend.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;

/** Against fixtures/reference/speed/weighting_wow.csv and fixtures/reference/disc. */
class WowWeightingTest {

  @Test
  void equalsTheTable() throws Exception {
    int seen = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/speed/weighting_wow.csv")) {
      assertThat(WowWeighting.decibels(Double.parseDouble(row.get(0))))
          .isCloseTo(Double.parseDouble(row.get(1)), within(1e-12));
      seen++;
    }
    assertThat(seen).isEqualTo(17);
    assertThatThrownBy(() -> WowWeighting.decibels(0.05)).hasMessageContaining("outside");
    assertThatThrownBy(() -> WowWeighting.decibels(300)).hasMessageContaining("outside");
  }

  /** Weight at one turn and weighted peak of a hole 0.2 mm off: the last two columns. */
  @Test
  void weighsOnceATurn() throws Exception {
    int seen = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/disc/groove_speed.csv")) {
      double rpm = Double.parseDouble(row.get(1));
      Wow wow =
          new Wow(
              60 / rpm,
              Double.parseDouble(row.get(2)),
              0,
              List.of(new Wow.Part(1, 0.2 * Math.cos(1), 0.2 * Math.sin(1))));
      assertThat(WowWeighting.decibels(rpm / 60))
          .isCloseTo(Double.parseDouble(row.get(13)), within(5.1e-3));
      assertThat(100 * WowWeighting.weightedPeak(wow, 0))
          .isCloseTo(Double.parseDouble(row.get(14)), within(5.1e-6));
      seen++;
    }
    assertThat(seen).isEqualTo(7);
  }

  /** 4 Hz at 0.1 % reads 0.1 % (check-values, section 6); four times a turn of one second. */
  @Test
  void fourHertzReadsAsItIs() {
    Wow wow = new Wow(1, 100, 0, List.of(new Wow.Part(4, 0.1, 0)));
    assertThat(WowWeighting.weightedPeak(wow, 0)).isCloseTo(0.001, within(1e-15));
  }
}
