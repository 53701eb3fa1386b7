package org.groovemend.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against the strobe table of fixtures/reference/disc and the pitch table beside it. */
class StatedRpmTest {

  private static double rpm(String text) {
    return StatedRpm.parse(text).turnsPerMinute();
  }

  @Test
  void strobeSpeedsAreExact() throws Exception {
    assertThat(rpm("33 1/3")).isEqualTo(100.0 / 3);
    assertThat(rpm("33.3")).isEqualTo(100.0 / 3);
    assertThat(rpm("33.33")).isEqualTo(100.0 / 3);
    assertThat(rpm("33.3333")).isEqualTo(100.0 / 3);
    assertThat(rpm("16 2/3")).isCloseTo(50.0 / 3, within(1e-13));
    assertThat(rpm("78.26")).isEqualTo(7200.0 / 92);
    assertThat(rpm("77.92")).isEqualTo(6000.0 / 77);
    assertThat(rpm("78")).isEqualTo(78);
    assertThat(rpm("78.5")).isEqualTo(78.5);
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/disc/strobe_bars.csv")) {
      assertThat(rpm(row.get(3))).isCloseTo(Double.parseDouble(row.get(3)), within(1e-6));
    }
  }

  /** Ratio and cents of every speed in speed_pitch.csv re 78.26. */
  @Test
  void pitchFollowsSpeed() throws Exception {
    int seen = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/speed/speed_pitch.csv")) {
      double ratio = rpm(row.get(0)) / rpm("78.26");
      assertThat(ratio).isCloseTo(Double.parseDouble(row.get(3)), within(1.1e-6));
      assertThat(1200 * Math.log(ratio) / Math.log(2))
          .isCloseTo(Double.parseDouble(row.get(4)), within(2e-3));
      seen++;
    }
    assertThat(seen).isEqualTo(18);
    // check-values, section 6
    assertThat(rpm("78.26") / rpm("45")).isCloseTo(1.739130, within(5e-7));
    assertThat(rpm("78.26") / rpm("33 1/3")).isCloseTo(2.347826, within(5e-7));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "fast", "0", "9.9", "121", "-33", "33 1/0", "NaN", "1e2", "33,3"})
  void whatIsNoSpeedIsSaid(String text) {
    assertThatThrownBy(() -> StatedRpm.parse(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("10 to 120");
  }
}
