package org.groovemend.playback;

/**
 * Time constants of a playback curve, in microseconds; 0 for one that the curve does not have.
 *
 * <p>H(s) = (1 + s T2) / ((1 + s T1)(1 + s T3)) with T1 the shelf, T2 the turnover and T3 the
 * treble; times s T4 / (1 + s T4) where a replay high-pass T4 belongs to it (IEC 60098, amendment
 * of 1976). Without a shelf the bass rises towards 0 Hz without end: (1 + s T2) / (s T2).
 *
 * @param highPassMicroseconds replay high-pass, more than the turnover, or 0
 * @param shelfMicroseconds end of the bass boost, or 0
 * @param turnoverMicroseconds start of the bass boost, less than the shelf, or 0 for no bass boost
 * @param trebleMicroseconds treble cut, less than the turnover, or 0
 */
public record PlaybackCurve(
    double highPassMicroseconds,
    double shelfMicroseconds,
    double turnoverMicroseconds,
    double trebleMicroseconds) {

  /** 3180, 318 and 75 microseconds: IEC 60098. */
  public static final PlaybackCurve MICROGROOVE = new PlaybackCurve(3180, 318, 75);

  /** No curve: what an acoustic recording wants. */
  public static final PlaybackCurve FLAT = new PlaybackCurve(0, 0, 0, 0);

  private static final double LONGEST = 1e6;

  /** Printed roll-offs are the loss of the treble section alone at this frequency. */
  private static final double ROLL_OFF_HERTZ = 10_000;

  public PlaybackCurve {
    double turnoverOrMost = turnoverMicroseconds == 0 ? LONGEST : turnoverMicroseconds;
    boolean sensible =
        zeroOr(trebleMicroseconds, 0, turnoverOrMost)
            && zeroOr(turnoverMicroseconds, 0, LONGEST)
            && zeroOr(shelfMicroseconds, turnoverMicroseconds, LONGEST)
            && zeroOr(highPassMicroseconds, turnoverMicroseconds, LONGEST)
            && (turnoverMicroseconds > 0 || shelfMicroseconds == 0);
    if (!sensible) {
      throw new IllegalArgumentException(
          "time constants "
              + shelfMicroseconds
              + ", "
              + turnoverMicroseconds
              + ", "
              + trebleMicroseconds
              + " microseconds do not fall from shelf over turnover to treble");
    }
  }

  /** Without a high-pass. */
  public PlaybackCurve(
      double shelfMicroseconds, double turnoverMicroseconds, double trebleMicroseconds) {
    this(0, shelfMicroseconds, turnoverMicroseconds, trebleMicroseconds);
  }

  private static boolean zeroOr(double value, double above, double below) {
    return value == 0 || (value > above && value < below);
  }

  /** Time constant of a corner frequency; 0 for 0. */
  public static double microseconds(double hertz) {
    return hertz == 0 ? 0 : 1e6 / (2 * Math.PI * hertz);
  }

  /** Corner frequency of a time constant; 0 for 0. */
  public static double hertz(double microseconds) {
    return microseconds(microseconds);
  }

  /**
   * Treble time constant of a roll-off as old tables print it: loss of the treble section alone at
   * 10 kHz.
   *
   * @param decibels 0 or more
   */
  public static double trebleOf(double decibels) {
    return 1e6 * Math.sqrt(StrictMath.pow(10, decibels / 10) - 1) / (2 * Math.PI * ROLL_OFF_HERTZ);
  }

  /** Roll-off in dB of a treble time constant, at 10 kHz. */
  public static double rollOffDb(double microseconds) {
    return 10 * StrictMath.log10(1 + square(2e-6 * Math.PI * ROLL_OFF_HERTZ * microseconds));
  }

  public boolean isFlat() {
    return equals(FLAT);
  }

  /** True if the bass rises towards 0 Hz without end. */
  public boolean endless() {
    return turnoverMicroseconds > 0 && shelfMicroseconds == 0;
  }

  /**
   * The same network for a signal that runs slower by this factor: every constant is longer by it.
   */
  public PlaybackCurve scaled(double factor) {
    return new PlaybackCurve(
        factor * highPassMicroseconds,
        factor * shelfMicroseconds,
        factor * turnoverMicroseconds,
        factor * trebleMicroseconds);
  }

  /** Squared magnitude of the analogue network at a frequency, but for a constant factor. */
  public double squaredMagnitude(double hertz) {
    double w = 2e-6 * Math.PI * hertz;
    double bass = endless() ? square(w * turnoverMicroseconds) : 1 + square(w * shelfMicroseconds);
    double magnitude =
        (1 + square(w * turnoverMicroseconds)) / (bass * (1 + square(w * trebleMicroseconds)));
    if (highPassMicroseconds > 0) {
      double high = square(w * highPassMicroseconds);
      magnitude *= high / (1 + high);
    }
    return magnitude;
  }

  /** Gain in dB relative to 1 kHz. */
  public double gainDb(double hertz) {
    return gainDb(hertz, 1000);
  }

  /** Gain in dB relative to another frequency. */
  public double gainDb(double hertz, double unityHertz) {
    return 10 * StrictMath.log10(squaredMagnitude(hertz) / squaredMagnitude(unityHertz));
  }

  /** Phase of the analogue network in radians, positive for a lead. */
  public double phase(double hertz) {
    double w = 2e-6 * Math.PI * hertz;
    double phase =
        StrictMath.atan(w * turnoverMicroseconds)
            - StrictMath.atan(w * shelfMicroseconds)
            - StrictMath.atan(w * trebleMicroseconds);
    if (endless()) {
      phase -= Math.PI / 2;
    }
    if (highPassMicroseconds > 0) {
      phase += Math.PI / 2 - StrictMath.atan(w * highPassMicroseconds);
    }
    return phase;
  }

  private static double square(double v) {
    return v * v;
  }
}
