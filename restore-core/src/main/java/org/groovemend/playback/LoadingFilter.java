package org.groovemend.playback;

import java.util.List;
import java.util.Locale;
import org.groovemend.cartridge.LoadCorrection;
import org.groovemend.cartridge.LoadedCoil;

/**
 * The correction of a pick-up's loading at one sampling rate: zeros of the actual load, poles of
 * the ideal one, and a short minimum-phase polynomial for what the magnitude then still lacks.
 */
public final class LoadingFilter {
  /** Degrees tried; the first that is near enough is taken. */
  private static final int[] DEGREES = {6, 10, 14, 20, 28};

  /** How far up it is fitted, as a part of the rate. */
  private static final double FIT_TOP = 0.47;

  /** A pair of roots turned further than this in a sample has no place inside the unit circle. */
  private static final double MOST_TURN = 0.85 * Math.PI;

  private static final double LOW_HERTZ = 20;
  private static final double HIGH_HERTZ = 20_000;

  /** 20 kHz at 44.1 kHz. */
  private static final double TOP = 0.4536;

  private static final double ALLOWED_DB = 0.02;
  private static final double REFUSED_DB = 0.05;
  private static final int POINTS = 400;
  private static final double SETTLED = 1e-12;
  private static final double[] ONE = {1};

  private final double[] polynomial;
  private final double[] poles;
  private final RecursiveFilter filter;
  private final double errorDb;

  private LoadingFilter(double[] polynomial, double[] poles, double errorDb) {
    this.polynomial = polynomial;
    this.poles = poles;
    this.filter = new RecursiveFilter(polynomial, poles);
    this.errorDb = errorDb;
  }

  /**
   * Designs it, with unit gain at 1 kHz of the capture.
   *
   * @param correction what is wanted
   * @param factor by what its time constants are longer in the time of the file
   * @param rate samples a second
   * @throws IllegalArgumentException if no filter comes within 0.05 dB from 20 Hz to 20 kHz, or the
   *     filter would lift anything below half the rate by more than is allowed
   */
  public static LoadingFilter design(LoadCorrection correction, double factor, int rate) {
    double[] zeros = matched(correction.actual(), factor, rate);
    double[] poles = correction.ideal() == null ? ONE : matched(correction.ideal(), factor, rate);
    LoadingFilter best = null;
    for (int degree : DEGREES) {
      LoadingFilter made = made(correction, factor, rate, zeros, poles, degree);
      if (made != null && (best == null || made.errorDb < best.errorDb)) {
        best = made;
      }
      if (best != null && best.errorDb <= ALLOWED_DB) {
        break;
      }
    }
    if (best == null || best.errorDb > REFUSED_DB) {
      throw new IllegalArgumentException(
          "the correction of the loading cannot be realised at a sampling rate of "
              + rate
              + " Hz; state an ideal load nearer to the actual one");
    }
    best.requireGainWithin(correction.mostDb(), rate);
    return best;
  }

  private static LoadingFilter made(
      LoadCorrection wanted, double factor, int rate, double[] zeros, double[] poles, int degree) {
    double[] rest;
    try {
      rest =
          MagnitudeFit.polynomial(
              hertz -> wanted.squaredMagnitude(hertz * factor),
              new RecursiveFilter(zeros, poles),
              rate,
              degree,
              FIT_TOP);
    } catch (IllegalArgumentException e) {
      return null;
    }
    double[] b = product(rest, zeros);
    double unity = 1000 / factor / rate;
    double gain = StrictMath.pow(10, new RecursiveFilter(b, poles).gainDb(unity) / -20);
    for (int k = 0; k < b.length; k++) {
      b[k] *= gain;
    }
    return new LoadingFilter(
        b, poles, errorDb(wanted, factor, rate, new RecursiveFilter(b, poles)));
  }

  private static double errorDb(
      LoadCorrection wanted, double factor, int rate, RecursiveFilter filter) {
    double worst = 0;
    double octaves = StrictMath.log(Math.min(HIGH_HERTZ, TOP * rate) / LOW_HERTZ);
    for (int i = 0; i <= POINTS; i++) {
      double hertz = LOW_HERTZ * StrictMath.exp(octaves * i / POINTS);
      double error = filter.gainDb(hertz / rate) - wanted.gainDb(hertz * factor);
      worst = Math.max(worst, Math.abs(error));
    }
    return worst;
  }

  private void requireGainWithin(double mostDb, int rate) {
    for (int i = 0; i <= POINTS; i++) {
      double cycles = 0.5 * i / POINTS;
      double db = filter.gainDb(cycles);
      if (db > mostDb + REFUSED_DB) {
        throw new IllegalArgumentException(
            String.format(
                Locale.ROOT,
                "at a sampling rate of %d Hz the correction of the loading would lift %.0f Hz by %.1f dB, more than the %.1f dB"
                    + " allowed; state an ideal load nearer to the actual one",
                rate,
                cycles * rate,
                db,
                mostDb));
      }
    }
  }

  /**
   * {1, c1, c2} of 1/z whose roots are exp of those of 1 + s first + s squared second; {1} for a
   * pair that lies too high for this rate.
   */
  private static double[] matched(LoadedCoil coil, double factor, int rate) {
    double first = coil.first() * factor * rate;
    double second = coil.second() * factor * factor * rate * rate;
    double middle = first / (2 * second);
    double square = middle * middle - 1 / second;
    if (square >= 0) {
      double apart = Math.sqrt(square);
      // the slower root without cancellation
      double slow = StrictMath.exp(-1 / (second * (middle + apart)));
      double fast = StrictMath.exp(-(middle + apart));
      return new double[] {1, -slow - fast, slow * fast};
    }
    double turn = Math.sqrt(-square);
    if (turn > MOST_TURN) {
      return ONE;
    }
    double radius = StrictMath.exp(-middle);
    return new double[] {1, -2 * radius * StrictMath.cos(turn), radius * radius};
  }

  private static double[] product(double[] a, double[] b) {
    double[] result = new double[a.length + b.length - 1];
    for (int i = 0; i < a.length; i++) {
      for (int k = 0; k < b.length; k++) {
        result[i + k] += a[i] * b[k];
      }
    }
    return result;
  }

  public RecursiveFilter forward() {
    return filter;
  }

  /** Sections whose product is {@link #forward()}. */
  public List<FilterSection> sections() {
    return FilterSection.cascade(polynomial, new double[0], poles, new double[0]);
  }

  /** Largest error of the magnitude from 20 Hz to 20 kHz, in dB. */
  public double errorDb() {
    return errorDb;
  }

  /** Samples after which a sample counts for less than 1e-12 of itself. */
  public int settlingFrames() {
    double slowest = 0.9;
    if (poles.length == 3) {
      double half = -poles[1] / 2;
      double square = half * half - poles[2];
      slowest = Math.max(slowest, square >= 0 ? half + Math.sqrt(square) : Math.sqrt(poles[2]));
    }
    return (int) Math.ceil(StrictMath.log(SETTLED) / StrictMath.log(slowest));
  }
}
