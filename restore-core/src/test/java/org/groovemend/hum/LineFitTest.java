package org.groovemend.hum;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealVector;
import org.groovemend.signal.window.WindowShape;
import org.junit.jupiter.api.Test;

/** Fit and followed phase against a general library and against the least possible error. */
class LineFitTest {
  private static final int RATE = 3000;

  /**
   * Against weighted least squares by QR decomposition of the Apache Commons Mathematics Library.
   */
  @Test
  void fitsAsLeastSquaresByOrthogonalDecompositionDoes() {
    int lines = 8;
    int n = 2000;
    double[] x = HumSound.noise(n, 0.1, 1);
    double[] cycles = new double[n];
    for (int i = 0; i < n; i++) {
      cycles[i] = 49.3 * i / RATE + 1e-8 * i * i;
      x[i] += Math.sin(2 * Math.PI * 3 * cycles[i] + 1);
    }
    double[] weight = WindowShape.HANN.periodic(n);
    Array2DRowRealMatrix basis = new Array2DRowRealMatrix(n, 2 * lines);
    RealVector data = new ArrayRealVector(n);
    for (int i = 0; i < n; i++) {
      double root = Math.sqrt(weight[i]);
      data.setEntry(i, root * x[i]);
      for (int k = 1; k <= lines; k++) {
        basis.setEntry(i, 2 * k - 2, root * Math.cos(2 * Math.PI * k * cycles[i]));
        basis.setEntry(i, 2 * k - 1, root * Math.sin(2 * Math.PI * k * cycles[i]));
      }
    }
    RealVector expected = new QRDecomposition(basis).getSolver().solve(data);
    LineFit fit = new LineFit(lines, n);
    fit.fit(x, 0, cycles, weight, n, RATE);
    for (int k = 0; k < lines; k++) {
      assertThat(fit.a[k]).isCloseTo(expected.getEntry(2 * k), within(1e-9));
      assertThat(fit.b[k]).isCloseTo(expected.getEntry(2 * k + 1), within(1e-9));
    }
  }

  /** The neighbourhood of white noise: 4 sigma^2 sum w^2 / (sum w)^2 (Rife and Boorstyn 1974). */
  @Test
  void theFloorIsThatOfWhiteNoise() {
    int n = RATE;
    double[] weight = WindowShape.HANN.periodic(n);
    double[] cycles = new double[n];
    for (int i = 0; i < n; i++) {
      cycles[i] = 50.0 * i / RATE;
    }
    LineFit fit = new LineFit(10, n);
    double floor = 0;
    double line = 0;
    int runs = 60;
    for (int run = 0; run < runs; run++) {
      fit.fit(HumSound.noise(n, 1, run), 0, cycles, weight, n, RATE);
      for (int k = 0; k < 10; k++) {
        floor += fit.floor[k] / (10 * runs);
        line += (fit.a[k] * fit.a[k] + fit.b[k] * fit.b[k]) / (10 * runs);
      }
    }
    double expected = 4 * 0.375 * n / (0.25 * n * n);
    // 600 exponential deviates have a standard error of 4 per cent
    assertThat(line / expected).isCloseTo(1, within(0.13));
    assertThat(floor / expected).isCloseTo(1, within(0.13));
  }

  /** A click of a thousand times the noise moves the amplitude by less than the noise does. */
  @Test
  void aClickCountsLittle() {
    int n = RATE;
    double[] cycles = new double[n];
    double[] x = HumSound.noise(n, 0.01, 3);
    for (int i = 0; i < n; i++) {
      cycles[i] = 50.0 * i / RATE;
      x[i] += 0.1 * Math.cos(2 * Math.PI * cycles[i]);
    }
    x[n / 2] += 10;
    LineFit fit = new LineFit(5, n);
    fit.fit(x, 0, cycles, WindowShape.HANN.periodic(n), n, RATE);
    assertThat(fit.a[0]).isCloseTo(0.1, within(0.002));
  }

  /**
   * Frequency and amplitude of a steady line against the Cramer-Rao bounds (D. Rife, R. Boorstyn,
   * IEEE Trans. Inf. Theory 20(5), 1974): var(omega) = 24 sigma^2 / (A^2 N^3) in radians a sample,
   * var(A) = 2 sigma^2 / N. Hann windows half overlapping use the data unevenly, and the ends less:
   * an error of up to 1.5 times the root of the bound is allowed.
   */
  @Test
  void frequencyAndAmplitudeComeNearTheCramerRaoBound() throws Exception {
    int rate = 8000;
    int n = 20 * rate;
    double sigma = 0.003;
    double amplitude = HumSound.over(sigma, rate, 20);
    double squareHertz = 0;
    double squareAmplitude = 0;
    int runs = 30;
    for (int run = 0; run < runs; run++) {
      double[] x = HumSound.noise(n, sigma, 100 + run);
      HumSound.add(x, rate, 50.03, amplitude, 0, 0, run);
      HumFinding.Family family = HumSound.analyse(rate, x).finding().families().get(0);
      squareHertz += Math.pow(family.meanHertz() - 50.03, 2) / runs;
      double found = Math.pow(10, family.lines().get(0).levelDbfs() / 20);
      squareAmplitude += Math.pow(found - amplitude, 2) / runs;
    }
    double noise = sigma * sigma;
    double boundHertz =
        Math.sqrt(24 * noise / (amplitude * amplitude) / ((double) n * n * n))
            * rate
            / (2 * Math.PI);
    double boundAmplitude = Math.sqrt(2 * noise / n);
    assertThat(Math.sqrt(squareHertz)).isBetween(0.7 * boundHertz, 1.5 * boundHertz);
    // the amplitude told is less the standard error: one bound of bias on top
    assertThat(Math.sqrt(squareAmplitude)).isBetween(0.7 * boundAmplitude, 2.2 * boundAmplitude);
  }
}
