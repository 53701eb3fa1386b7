package org.groovemend.playback;

import java.util.ArrayList;
import java.util.List;

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

  /** How far up it is fitted, as a part of the rate. */
  private static final double FIT_TOP = 0.45;

  private static final double[] ONE = {1};
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
    double[] a = product(ONE, poles);
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
        curve.isFlat()
            ? ONE.clone()
            : MagnitudeFit.polynomial(
                curve::squaredMagnitude,
                new RecursiveFilter(product(ONE, z), product(ONE, p)),
                sampleRateHz,
                DEGREE,
                FIT_TOP);
    double[] b = product(correction, z);
    double[] a = product(ONE, p);
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
    return FilterSection.cascade(polynomial, zeros, ONE, poles);
  }

  /** The same of {@link #inverse()}. */
  public List<FilterSection> inverseSections() {
    return FilterSection.cascade(ONE, poles, polynomial, zeros);
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
}
