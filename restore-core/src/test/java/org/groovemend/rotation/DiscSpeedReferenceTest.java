package org.groovemend.rotation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.groovemend.signal.predict.ReferenceTable;
import org.junit.jupiter.api.Test;

/**
 * Against fixtures/reference/disc: stroboscope speeds (120 times line frequency over bars) and
 * groove radii.
 */
class DiscSpeedReferenceTest {

  @Test
  void speedsAreThoseOfStroboscopes() throws Exception {
    int seen = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/disc/strobe_bars.csv")) {
      double rpm = Double.parseDouble(row.get(3));
      String nominal = row.get(2).substring(0, 2);
      if (List.of("33", "45", "78", "80").contains(nominal)) {
        seen++;
        assertThat(DiscSpeed.of(rpm))
            .hasValueSatisfying(speed -> assertThat(speed.words()).startsWith(nominal));
      } else {
        assertThat(DiscSpeed.of(rpm)).isEmpty();
      }
    }
    assertThat(seen).isGreaterThan(5);
    assertThat(DiscSpeed.SEVENTY_EIGHT.rpm()).isCloseTo(78.260870, within(1e-6));
  }

  @Test
  void radiiAreTheTables() throws Exception {
    int seen = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/disc/groove_speed.csv")) {
      String place = row.get(0);
      double rpm = Double.parseDouble(row.get(1));
      double radius = Double.parseDouble(row.get(2));
      DiscSpeed speed = DiscSpeed.of(rpm).orElseThrow();
      if (place.contains("12 inch coarse")) {
        continue; // the larger and rarer 78
      }
      seen++;
      assertThat(place.contains("inner") ? speed.innerMm() : speed.outerMm())
          .as(place)
          .isEqualTo(radius);
    }
    assertThat(seen).isEqualTo(6);
  }
}
