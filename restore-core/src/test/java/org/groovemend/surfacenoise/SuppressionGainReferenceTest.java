package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import org.groovemend.signal.special.ExponentialIntegral;
import org.junit.jupiter.api.Test;

/**
 * Against noise/noise_gains.csv: Wiener and log-amplitude gains computed to 40 digits from the
 * published formulae.
 */
class SuppressionGainReferenceTest {

  @Test
  void exactGainsAreThoseOfTheTable() throws IOException {
    int rows = 0;
    for (String[] row : Table.read("noise_gains.csv")) {
      double xi = StrictMath.pow(10, Double.parseDouble(row[0]) / 10);
      double gamma = StrictMath.pow(10, Double.parseDouble(row[1]) / 10);
      double wiener = Double.parseDouble(row[3]);
      double lsa = Double.parseDouble(row[6]);
      assertEquals(1, SuppressionGain.wiener(xi) / wiener, 1e-9);
      assertEquals(1, SuppressionGain.logAmplitude(xi, gamma) / lsa, 1e-9);
      rows++;
    }
    assertEquals(100, rows);
  }

  @Test
  void tabulatedPowerIsWithinAHundredThousandthOfTheExactOne() {
    for (double v = 1e-6; v < 60; v *= 1.00173) {
      double exact = v * StrictMath.exp(ExponentialIntegral.e1(v));
      assertEquals(exact, LogAmplitudeTable.h(v), 1e-5, "v = " + v);
    }
    assertEquals(StrictMath.exp(-ExponentialIntegral.GAMMA), LogAmplitudeTable.h(0), 1e-15);
  }

  @Test
  void keptPowerIsTheGainSquaredCappedAtOne() throws IOException {
    for (String[] row : Table.read("noise_gains.csv")) {
      double xi = StrictMath.pow(10, Double.parseDouble(row[0]) / 10);
      double gamma = StrictMath.pow(10, Double.parseDouble(row[1]) / 10);
      double g = Math.min(1, Double.parseDouble(row[6]));
      assertEquals(g * g * gamma, LogAmplitudeTable.kept(xi, gamma), 1e-5);
    }
  }

  @Test
  void logAmplitudeGoesToWienerForStrongLines() {
    assertEquals(SuppressionGain.wiener(3), SuppressionGain.logAmplitude(3, 1e4), 1e-15);
    assertTrue(SuppressionGain.logAmplitude(3, 1) > SuppressionGain.wiener(3));
  }
}
