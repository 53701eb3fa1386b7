package org.groovemend.playback;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.groovemend.signal.fft.RealFft;

/**
 * What a matched filter lacks of an analogue magnitude, as a short minimum-phase polynomial in 1/z.
 */
final class MagnitudeFit {
  private static final int GRID = 400;
  private static final int CEPSTRUM = 4096;
  private static final double FROM_HERTZ = 20;

  private MagnitudeFit() {}

  /**
   * Fits it in least relative squares.
   *
   * @param squaredMagnitude the analogue one at a frequency in hertz
   * @param matched the filter that has its poles and zeros
   * @param rate samples a second
   * @param degree of the polynomial
   * @param top where the fit ends, as a part of the rate, below 0.5
   * @throws IllegalArgumentException if the fitted magnitude is nowhere positive enough
   */
  static double[] polynomial(
      DoubleUnaryOperator squaredMagnitude,
      RecursiveFilter matched,
      int rate,
      int degree,
      double top) {
    return minimumPhase(fit(squaredMagnitude, matched, rate, degree, top));
  }

  /**
   * Cosine polynomial c[0] + sum c[k] cos(k w) that follows the squared magnitude still missing.
   */
  private static double[] fit(
      DoubleUnaryOperator squaredMagnitude,
      RecursiveFilter matched,
      int rate,
      int degree,
      double top) {
    double[][] rows = new double[GRID][degree + 1];
    double[] ones = new double[GRID];
    double reference = squaredMagnitude.applyAsDouble(1000);
    for (int i = 0; i < GRID; i++) {
      double f = FROM_HERTZ + (top * rate - FROM_HERTZ) * i / (GRID - 1);
      double wanted = squaredMagnitude.applyAsDouble(f) / reference;
      double missing = wanted / StrictMath.pow(10, matched.gainDb(f / rate) / 10);
      for (int k = 0; k <= degree; k++) {
        rows[i][k] = StrictMath.cos(2 * Math.PI * k * f / rate) / missing;
      }
      ones[i] = 1;
    }
    return new QRDecomposition(new Array2DRowRealMatrix(rows, false))
        .getSolver()
        .solve(new ArrayRealVector(ones, false))
        .toArray();
  }

  /**
   * Minimum-phase polynomial of the given squared magnitude, by folding its cepstrum (Oppenheim and
   * Schafer 1975).
   */
  private static double[] minimumPhase(double[] cosines) {
    double[] c = new double[CEPSTRUM];
    RealFft fft = new RealFft(CEPSTRUM);
    for (int bin = 0; bin <= CEPSTRUM / 2; bin++) {
      double p = 0;
      for (int k = 0; k < cosines.length; k++) {
        p += cosines[k] * StrictMath.cos(2 * Math.PI * k * bin / CEPSTRUM);
      }
      if (!(p > 0)) {
        throw new IllegalArgumentException("the curve cannot be realised at this sampling rate");
      }
      int at = bin == CEPSTRUM / 2 ? 1 : 2 * bin;
      c[at] = 0.5 * StrictMath.log(p);
    }
    fft.inverse(c);
    double[] h = new double[cosines.length];
    // exp of the power series c0/1 + sum 2 c[k] z^-k
    h[0] = StrictMath.exp(c[0]);
    for (int n = 1; n < h.length; n++) {
      double sum = 0;
      for (int k = 1; k <= n; k++) {
        sum += k * 2 * c[k] * h[n - k];
      }
      h[n] = sum / n;
    }
    return h;
  }
}
