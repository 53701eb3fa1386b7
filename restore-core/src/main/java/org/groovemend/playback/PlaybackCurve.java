package org.groovemend.playback;

/**
 * Time constants of a playback curve, in microseconds: bass shelf, turnover, treble.
 *
 * @param shelfMicroseconds end of the bass boost
 * @param turnoverMicroseconds start of the bass boost, less than the shelf
 * @param trebleMicroseconds treble cut, less than the turnover
 */
public record PlaybackCurve(
    double shelfMicroseconds, double turnoverMicroseconds, double trebleMicroseconds) {

  /** 3180, 318 and 75 microseconds: IEC 60098. */
  public static final PlaybackCurve MICROGROOVE = new PlaybackCurve(3180, 318, 75);

  public PlaybackCurve {
    if (!(trebleMicroseconds > 0
        && turnoverMicroseconds > trebleMicroseconds
        && shelfMicroseconds > turnoverMicroseconds
        && shelfMicroseconds < 1e6)) {
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

  /** Squared magnitude of the analogue network at a frequency, relative to 0 Hz. */
  public double squaredMagnitude(double hertz) {
    double w = 2e-6 * Math.PI * hertz;
    return (1 + square(w * turnoverMicroseconds))
        / ((1 + square(w * shelfMicroseconds)) * (1 + square(w * trebleMicroseconds)));
  }

  /** Gain in dB relative to 1 kHz. */
  public double gainDb(double hertz) {
    return 10 * StrictMath.log10(squaredMagnitude(hertz) / squaredMagnitude(1000));
  }

  private static double square(double v) {
    return v * v;
  }
}
