package org.groovemend.signal.predict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Against fixtures/reference/ar: processes of Percival and Walden 1993, lh and sunspots of public
 * statistical data sets.
 */
class AutoregressiveReferenceTest {
  private static final double[][] PHI = {{0.9}, {0.75, -0.5}, {2.7607, -3.8106, 2.6535, -0.9238}};

  @Test
  void levinsonReturnsTheProcessFromItsCovariance() throws Exception {
    List<List<String>> rows = ReferenceTable.rows("/fixtures/reference/ar/ar_processes.csv");
    assertThat(rows).hasSize(3);
    for (int p = 0; p < 3; p++) {
      double[] r = rows.get(p).subList(1, 10).stream().mapToDouble(Double::parseDouble).toArray();
      int order = PHI[p].length;
      double[] a = new double[order + 1];
      double[] k = new double[order];
      double error = LevinsonDurbin.solve(r, order, a, k);
      // the table prints 10 digits; the AR(4) process amplifies them by its condition (64 dB of
      // spectrum)
      double tolerance = order == 4 ? 5e-6 : 1e-8;
      for (int i = 0; i < order; i++) {
        assertThat(-a[i + 1]).isCloseTo(PHI[p][i], within(tolerance));
      }
      assertThat(error).isCloseTo(1, within(order == 4 ? 1e-4 : 1e-8));
      String[] reflection = rows.get(p).get(10).split(" ");
      for (int i = 0; i < order; i++) {
        assertThat(k[i]).isCloseTo(Double.parseDouble(reflection[i]), within(1e-5));
      }
    }
  }

  @Test
  void spectrumOfTheFilterIsThatOfTheProcess() throws Exception {
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/ar/ar_spectrum.csv")) {
      double f = Double.parseDouble(row.get(0));
      for (int p = 0; p < 3; p++) {
        double re = 1;
        double im = 0;
        for (int k = 1; k <= PHI[p].length; k++) {
          re -= PHI[p][k - 1] * StrictMath.cos(2 * Math.PI * f * k);
          im += PHI[p][k - 1] * StrictMath.sin(2 * Math.PI * f * k);
        }
        assertThat(-10 * StrictMath.log10(re * re + im * im))
            .isCloseTo(Double.parseDouble(row.get(p + 1)), within(1e-6));
      }
    }
  }

  @Test
  void fitsOfPublishedSeriesAgree() throws Exception {
    int checked = 0;
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/ar/ar_fits.csv")) {
      double[] x = series(row.get(0));
      boolean burg = row.get(3).equals("burg");
      if (x == null || !(burg || row.get(3).equals("yule-walker"))) {
        continue;
      }
      double mean = row.get(2).isEmpty() ? 0 : Double.parseDouble(row.get(2));
      double printed = 0;
      for (double v : x) {
        printed += v / x.length;
      }
      for (int i = 0; i < x.length; i++) {
        x[i] -= mean == 0 ? 0 : printed;
      }
      int order = Integer.parseInt(row.get(4));
      double[] a = new double[order + 1];
      double variance;
      if (burg) {
        variance = new Burg(x.length).fit(x, 0, x.length, order, a, null);
      } else {
        double[] r = new double[order + 1];
        new Autocorrelation(x.length, order).compute(x, 0, x.length, null, r);
        variance = LevinsonDurbin.solve(r, order, a, null) / x.length;
      }
      String[] phi = row.get(5).trim().split(" ");
      for (int i = 0; i < order; i++) {
        assertThat(-a[i + 1])
            .as(row.toString())
            .isCloseTo(Double.parseDouble(phi[i]), within(6e-9));
      }
      double expected = Double.parseDouble(row.get(6));
      assertThat(variance).as(row.toString()).isCloseTo(expected, within(1e-8 * expected));
      checked++;
    }
    assertThat(checked).isGreaterThanOrEqualTo(18);
  }

  private static double[] series(String name) throws Exception {
    String id = name.startsWith("lh") ? "lh" : name.startsWith("sunspots") ? "sunspots" : null;
    if (id == null) {
      return null;
    }
    List<Double> v = new ArrayList<>();
    for (List<String> row : ReferenceTable.rows("/fixtures/reference/ar/ar_series.csv")) {
      int index = Integer.parseInt(row.get(1));
      boolean in = id.equals("lh");
      if (id.equals("sunspots")) {
        in =
            name.contains("1770") ? index >= 1770 && index <= 1869 : index >= 1749 && index <= 1924;
      }
      if (row.get(0).equals(id) && in) {
        double value = Double.parseDouble(row.get(2));
        v.add(name.contains("rounded") ? Math.rint(value) : value);
      }
    }
    return v.stream().mapToDouble(Double::doubleValue).toArray();
  }

  @Test
  void handExamples() {
    double[] a = new double[3];
    double[] k = new double[2];
    assertThat(LevinsonDurbin.solve(new double[] {1, 0.5, -0.125}, 2, a, k)).isEqualTo(9.0 / 16);
    assertThat(a).containsExactly(1, -0.75, 0.5);
    assertThat(k).containsExactly(0.5, -0.5);
    new Burg(4).fit(new double[] {1, 2, 3, 4}, 0, 4, 2, a, k);
    assertThat(k[0]).isCloseTo(40.0 / 43, within(1e-15));
    assertThat(-a[1]).isCloseTo(1.803408, within(5e-7));
    assertThat(-a[2]).isCloseTo(-0.938663, within(5e-7));
  }

  @Test
  void silenceGivesNoModelAndNoError() {
    double[] a = new double[5];
    assertThat(LevinsonDurbin.solve(new double[5], 4, a, null)).isZero();
    assertThat(a).containsExactly(1, 0, 0, 0, 0);
    assertThat(new Burg(16).fit(new double[16], 0, 16, 4, a, null)).isZero();
  }

  @Test
  void directAndTransformedAutocorrelationAgree() {
    java.util.Random random = new java.util.Random(3);
    double[] x = random.doubles(1000, -1, 1).toArray();
    double[] direct = new double[100];
    double[] transformed = new double[121];
    new Autocorrelation(1000, 99).compute(x, 0, 1000, null, direct);
    new Autocorrelation(1000, 120).compute(x, 0, 1000, null, transformed);
    for (int k = 0; k < 100; k++) {
      double sum = 0;
      for (int n = 0; n + k < 1000; n++) {
        sum += x[n] * x[n + k];
      }
      assertThat(direct[k]).isCloseTo(sum, within(1e-10));
      assertThat(transformed[k]).isCloseTo(sum, within(1e-10));
    }
  }
}
