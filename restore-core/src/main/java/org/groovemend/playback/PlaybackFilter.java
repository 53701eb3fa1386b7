package org.groovemend.playback;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.groovemend.signal.fft.RealFft;

/**
 * A playback curve at one sampling rate: {@link #forward()} applies it, {@link #inverse()} undoes
 * it exactly.
 *
 * <p>A rise or fall without end towards 0 Hz cannot be undone, nor held in a segment: it is ended
 * at {@value #END_HERTZ} Hz, which is 0.011 dB at 20 Hz.
 */
public final class PlaybackFilter {
  /** Degree of the fitted polynomial; the error left at each rate is in the tests. */
  private static final int DEGREE = 6;

  private static final int GRID = 400;
  private static final int CEPSTRUM = 4096;
  private static final double HIGHEST_UNITY = 0.45;
  private static final double SETTLED = 1e-12;

  /** Where a bass without shelf, or a high-pass, ends. */
  static final double END_HERTZ = 1;

  private final double[] zeros;
  private final double[] poles;
  private final double[] polynomial;
  private final RecursiveFilter forward;
  private final RecursiveFilter inverse;

  private PlaybackFilter(double[] zeros, double[] poles, double[] polynomial) {
    this.zeros = zeros;
    this.poles = poles;
    this.polynomial = polynomial;
    double[] b = product(polynomial, zeros);
    double[] a = product(new double[] {1}, poles);
    forward = new RecursiveFilter(b, a);
    inverse = new RecursiveFilter(a, b);
  }

  /** With unit gain at 1 kHz. */
  public static PlaybackFilter design(PlaybackCurve curve, int sampleRateHz) {
    return design(curve, sampleRateHz, 1000);
  }

  /**
   * The filter for a curve.
   *
   * @param unityHertz frequency of unit gain, below 0.45 of the rate
   * @throws IllegalArgumentException if the curve cannot be realised at this rate
   */
  public static PlaybackFilter design(PlaybackCurve curve, int sampleRateHz, double unityHertz) {
    if (!(unityHertz < HIGHEST_UNITY * sampleRateHz)) {
      throw new IllegalArgumentException(
          "a sampling rate of "
              + sampleRateHz
              + " Hz is too low for a curve with unit gain at "
              + Math.round(unityHertz)
              + " Hz");
    }
    double end = StrictMath.exp(-2 * Math.PI * END_HERTZ / sampleRateHz);
    List<Double> zeros = new ArrayList<>();
    List<Double> poles = new ArrayList<>();
    if (curve.turnoverMicroseconds() > 0) {
      zeros.add(pole(curve.turnoverMicroseconds(), sampleRateHz));
      poles.add(curve.endless() ? end : pole(curve.shelfMicroseconds(), sampleRateHz));
    }
    if (curve.trebleMicroseconds() > 0) {
      poles.add(pole(curve.trebleMicroseconds(), sampleRateHz));
    }
    if (curve.highPassMicroseconds() > 0) {
      zeros.add(end);
      poles.add(pole(curve.highPassMicroseconds(), sampleRateHz));
    }
    double[] z = array(zeros);
    double[] p = array(poles);
    double[] correction =
        curve.isFlat() ? new double[] {1} : minimumPhase(fit(curve, z, p, sampleRateHz));
    double[] b = product(correction, z);
    double[] a = product(new double[] {1}, p);
    double gain =
        StrictMath.pow(10, new RecursiveFilter(b, a).gainDb(unityHertz / sampleRateHz) / -20);
    for (int k = 0; k < correction.length; k++) {
      correction[k] *= gain;
    }
    return new PlaybackFilter(z, p, correction);
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** The polynomial times (1 - r / z) for every root. */
  private static double[] product(double[] polynomial, double[] roots) {
    double[] result = polynomial;
    for (double root : roots) {
      double[] next = new double[result.length + 1];
      for (int k = 0; k < result.length; k++) {
        next[k] += result[k];
        next[k + 1] -= root * result[k];
      }
      result = next;
    }
    return result;
  }

  public RecursiveFilter forward() {
    return forward;
  }

  public RecursiveFilter inverse() {
    return inverse;
  }

  /** Sections of first and second order whose product is {@link #forward()}. */
  public List<FilterSection> forwardSections() {
    return FilterSection.cascade(polynomial, zeros, new double[] {1}, poles);
  }

  /** The same of {@link #inverse()}. */
  public List<FilterSection> inverseSections() {
    return FilterSection.cascade(new double[] {1}, poles, polynomial, zeros);
  }

  /**
   * Samples after which a sample counts for less than 1e-12 of itself, in both directions and at
   * most.
   */
  public int settlingFrames() {
    double slowest = 0.9;
    for (double root : zeros) {
      slowest = Math.max(slowest, root);
    }
    for (double root : poles) {
      slowest = Math.max(slowest, root);
    }
    return (int) Math.ceil(StrictMath.log(SETTLED) / StrictMath.log(slowest));
  }

  private static double pole(double microseconds, int rate) {
    return StrictMath.exp(-1e6 / (microseconds * rate));
  }

  /**
   * Cosine polynomial c[0] + sum c[k] cos(k w) that follows the squared magnitude still missing, in
   * least relative squares.
   */
  private static double[] fit(PlaybackCurve curve, double[] zeros, double[] poles, int rate) {
    double[] one = {1};
    RecursiveFilter matched = new RecursiveFilter(product(one, zeros), product(one, poles));
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
