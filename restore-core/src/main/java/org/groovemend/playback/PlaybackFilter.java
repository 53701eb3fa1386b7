package org.groovemend.playback;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.groovemend.signal.fft.RealFft;

/**
 * A playback curve at one sampling rate: {@link #forward()} applies it, {@link #inverse()} undoes
 * it exactly.
 */
public final class PlaybackFilter {
  /** Degree of the fitted polynomial; the error left at each rate is in the tests. */
  private static final int DEGREE = 6;

  private static final int GRID = 400;
  private static final int CEPSTRUM = 4096;

  private final RecursiveFilter forward;
  private final RecursiveFilter inverse;

  private PlaybackFilter(double[] b, double[] a) {
    forward = new RecursiveFilter(b, a);
    inverse = new RecursiveFilter(a, b);
  }

  public static PlaybackFilter design(PlaybackCurve curve, int sampleRateHz) {
    double shelf = pole(curve.shelfMicroseconds(), sampleRateHz);
    double turnover = pole(curve.turnoverMicroseconds(), sampleRateHz);
    double treble = pole(curve.trebleMicroseconds(), sampleRateHz);
    double[] a = {1, -shelf - treble, shelf * treble};
    double[] correction = minimumPhase(fit(curve, a, turnover, sampleRateHz));
    double[] b = new double[correction.length + 1];
    for (int k = 0; k < correction.length; k++) {
      b[k] += correction[k];
      b[k + 1] -= turnover * correction[k];
    }
    double gain = StrictMath.pow(10, new RecursiveFilter(b, a).gainDb(1000.0 / sampleRateHz) / -20);
    for (int k = 0; k < b.length; k++) {
      b[k] *= gain;
    }
    return new PlaybackFilter(b, a);
  }

  public RecursiveFilter forward() {
    return forward;
  }

  public RecursiveFilter inverse() {
    return inverse;
  }

  private static double pole(double microseconds, int rate) {
    return StrictMath.exp(-1e6 / (microseconds * rate));
  }

  /**
   * Cosine polynomial c[0] + sum c[k] cos(k w) that follows the squared magnitude still missing, in
   * least relative squares.
   */
  private static double[] fit(PlaybackCurve curve, double[] a, double zero, int rate) {
    RecursiveFilter matched = new RecursiveFilter(new double[] {1, -zero}, a);
    double[][] rows = new double[GRID][DEGREE + 1];
    double[] ones = new double[GRID];
    double reference = curve.squaredMagnitude(1000);
    for (int i = 0; i < GRID; i++) {
      double f = 20 + (0.45 * rate - 20) * i / (GRID - 1);
      double wanted = curve.squaredMagnitude(f) / reference;
      double missing = wanted / StrictMath.pow(10, matched.gainDb(f / rate) / 10);
      for (int k = 0; k <= DEGREE; k++) {
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
