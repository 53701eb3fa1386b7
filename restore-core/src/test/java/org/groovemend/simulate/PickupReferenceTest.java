package org.groovemend.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.fft.RealFft;
import org.junit.jupiter.api.Test;

/** Against fixtures/reference/simulate/cartridge_load.csv (its header names formula and origin). */
class PickupReferenceTest {

  private static List<String[]> rows() throws IOException {
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                PickupReferenceTest.class.getResourceAsStream(
                    "/fixtures/reference/simulate/cartridge_load.csv"),
                StandardCharsets.UTF_8))) {
      return in.lines().filter(l -> !l.startsWith("#")).map(l -> l.split(",", -1)).toList();
    }
  }

  private static Pickup pickup(String[] row) {
    return new Pickup(
        Double.parseDouble(row[0]) * 1e-3,
        Double.parseDouble(row[1]),
        Double.parseDouble(row[2]),
        Double.parseDouble(row[3]) * 1e-12);
  }

  @Test
  void resonanceQAndGainsMeetTheTable() throws IOException {
    List<String[]> rows = rows();
    List<String> head = Arrays.asList(rows.get(0));
    List<String[]> table = rows.subList(1, rows.size());
    assertThat(table).hasSizeGreaterThan(10);
    for (String[] row : table) {
      Pickup p = pickup(row);
      // half the last printed digit
      assertThat(p.resonanceHz())
          .isCloseTo(Double.parseDouble(row[head.indexOf("f0_hz")]), within(0.0005001));
      assertThat(p.q()).isCloseTo(Double.parseDouble(row[head.indexOf("Q")]), within(5.001e-7));
      assertThat(p.directLossDb())
          .isCloseTo(Double.parseDouble(row[head.indexOf("dc_loss_db")]), within(5.001e-7));
      for (int hz : new int[] {20, 2000, 5000, 8000, 10000, 12000, 15000, 18000, 20000}) {
        double db = 20 * Math.log10(p.gain(hz) / p.gain(1000));
        double printed = Double.parseDouble(row[head.indexOf("db_" + hz)]);
        assertThat(db)
            .as("%s at %d Hz", String.join(",", row), hz)
            .isCloseTo(printed, within(5.001e-6));
      }
    }
  }

  @Test
  void digitalSectionFollowsTheAnalogueNetworkAtTheOversampledRate() throws IOException {
    int n = 8192;
    double rate = 8 * 96_000;
    for (String[] row : rows().subList(1, rows().size())) {
      Pickup p = pickup(row);
      Section section = p.section(rate);
      double[] h = new double[n];
      for (int i = 0; i < n; i++) {
        h[i] = section.next(i == 0 ? 1 : 0);
      }
      new RealFft(n).forward(h);
      for (int k = 4; k * rate / n < 30_000; k += 20) {
        double db = 20 * Math.log10(Math.hypot(h[2 * k], h[2 * k + 1]) / p.gain(k * rate / n));
        // bilinear warping at 30 kHz of 768 kHz: (pi f/rate)^2/3 = 0.5 % in frequency, on a slope
        // of
        // at most Q^2: below 0.25 dB for the table's Q
        assertThat(db).isCloseTo(0, within(0.25));
      }
    }
  }
}
