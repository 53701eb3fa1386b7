package org.groovemend.signal.window;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * Against windows/window_merit.csv and window_overlap_sums.csv (computed; Harris 1978 in the same
 * table).
 */
class WindowShapeReferenceTest {

  private static final Map<String, WindowShape> NAMES =
      Map.of(
          "rectangular", WindowShape.RECTANGULAR,
          "sine (sqrt-Hann)", WindowShape.SQRT_HANN,
          "Hann", WindowShape.HANN,
          "Hamming (0.54,0.46)", WindowShape.HAMMING,
          "Blackman (0.42,0.50,0.08)", WindowShape.BLACKMAN,
          "Blackman-Harris 4-term min (0.35875,0.48829,0.14128,0.01168)",
              WindowShape.BLACKMAN_HARRIS);

  @Test
  void figuresOfMeritAreThoseOfTheTable() throws IOException {
    int checked = 0;
    for (String[] row : rows("window_merit.csv")) {
      WindowShape shape = NAMES.get(row[0]);
      if (shape == null) {
        continue;
      }
      checked++;
      double[] w = shape.periodic(4096);
      double sum = 0;
      double squares = 0;
      double re = 0;
      double im = 0;
      double[] shifted = new double[2];
      for (int n = 0; n < w.length; n++) {
        sum += w[n];
        squares += w[n] * w[n];
        re += w[n] * StrictMath.cos(Math.PI * n / w.length);
        im += w[n] * StrictMath.sin(Math.PI * n / w.length);
        for (int i = 0; i < 2; i++) {
          int m = n + w.length / (i == 0 ? 4 : 2);
          shifted[i] += m < w.length ? w[n] * w[m] : 0;
        }
      }
      assertEquals(Double.parseDouble(row[1]), sum / w.length, 0.5e-6, row[0]);
      assertEquals(Double.parseDouble(row[2]), w.length * squares / (sum * sum), 0.5e-6, row[0]);
      assertEquals(
          Double.parseDouble(row[3]),
          -20 * StrictMath.log10(Math.hypot(re, im) / sum),
          0.5e-6,
          row[0]);
      assertEquals(Double.parseDouble(row[8]), 100 * shifted[0] / squares, 0.5e-3, row[0]);
      assertEquals(Double.parseDouble(row[9]), 100 * shifted[1] / squares, 0.5e-3, row[0]);
    }
    assertEquals(NAMES.size(), checked);
  }

  @Test
  void overlappedSumsAreThoseOfTheTable() throws IOException {
    int checked = 0;
    for (String[] row : rows("window_overlap_sums.csv")) {
      WindowShape shape = NAMES.get(row[0]);
      if (shape == null) {
        continue;
      }
      checked++;
      int div = Integer.parseInt(row[1]);
      double[] w = shape.periodic(div == 3 ? 1536 : 1024);
      double[] one = ripple(w, div, 1);
      double[] two = ripple(w, div, 2);
      assertEquals(Double.parseDouble(row[2]), one[0], 1e-8, row[0] + " " + div);
      assertEquals(
          Double.parseDouble(row[3]),
          one[1],
          0.6e-3 * Math.max(1e-9, one[1]) + 1e-12,
          row[0] + " " + div);
      assertEquals(Double.parseDouble(row[4]), two[0], 1e-8, row[0] + " " + div);
      assertEquals(
          Double.parseDouble(row[5]),
          two[1],
          0.6e-3 * Math.max(1e-9, two[1]) + 1e-12,
          row[0] + " " + div);
    }
    assertTrue(checked >= 4 * NAMES.size());
  }

  @Test
  void onlyThePeriodicFormOverlapsToAConstant() {
    assertTrue(ripple(WindowShape.HANN.periodic(1024), 2, 1)[1] < 1e-14);
    assertTrue(ripple(WindowShape.HANN.symmetric(1024), 2, 1)[1] > 1e-3);
    double[] p = WindowShape.HANN.periodic(8);
    double[] s = WindowShape.HANN.symmetric(8);
    assertEquals(1, p[4], 0);
    assertEquals(0, p[0], 0);
    assertEquals(0, s[0], 0);
    assertEquals(0, s[7], 0);
    for (double v : s) {
      assertNotEquals(1, v);
    }
  }

  @Test
  void lengthsBelowOneAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> WindowShape.HANN.periodic(0));
    assertEquals(1, WindowShape.HANN.symmetric(1)[0]);
  }

  /** Mean and relative peak-to-peak ripple of the overlapped sum of w or its square. */
  private static double[] ripple(double[] w, int div, int power) {
    int hop = w.length / div;
    double low = Double.MAX_VALUE;
    double high = 0;
    double total = 0;
    for (int n = 0; n < hop; n++) {
      double sum = 0;
      for (int m = n; m < w.length; m += hop) {
        sum += power == 1 ? w[m] : w[m] * w[m];
      }
      low = Math.min(low, sum);
      high = Math.max(high, sum);
      total += sum;
    }
    double mean = total / hop;
    return new double[] {mean, (high - low) / mean};
  }

  private static List<String[]> rows(String name) throws IOException {
    List<String[]> rows = new ArrayList<>();
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                WindowShapeReferenceTest.class.getResourceAsStream(
                    "/fixtures/reference/windows/" + name),
                StandardCharsets.UTF_8))) {
      boolean header = true;
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        if (line.startsWith("#")) {
          continue;
        }
        if (header) {
          header = false;
          continue;
        }
        // fields in quotes may hold commas; a remark of the table's makes them part of one name
        String[] f = line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)");
        f[0] = f[0].replace("\"", "");
        rows.add(f);
      }
    }
    return rows;
  }
}
