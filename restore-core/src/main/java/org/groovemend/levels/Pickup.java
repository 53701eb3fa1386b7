package org.groovemend.levels;

/**
 * What a pick-up gives at 1 kHz.
 *
 * @param millivolts at {@code velocity}, 0.01 to 100
 * @param velocity of the groove, cm/s; root mean square if the voltage is, peak if that is
 */
public record Pickup(double millivolts, double velocity) {

  /** Velocity that levels of records are told against, cm/s (common practice, no source). */
  public static final double REFERENCE_VELOCITY = 5;

  public Pickup {
    if (!(millivolts >= 0.01 && millivolts <= 100) || !(velocity >= 0.1 && velocity <= 100)) {
      throw new IllegalArgumentException(
          "a pick-up of "
              + millivolts
              + " mV at "
              + velocity
              + " cm/s is outside 0.01 to 100 mV at 0.1 to 100 cm/s");
    }
  }

  /** Voltage at a velocity in cm/s. */
  public Level at(double cmPerSecond) {
    return new Level(1e-3 * millivolts * cmPerSecond / velocity);
  }

  /** Velocity in cm/s that gives a voltage. */
  public double velocityOf(Level level) {
    return 1e3 * level.volts() / millivolts * velocity;
  }

  /** Swing of the groove in micrometres at a velocity and frequency: v / (2 pi f). */
  public static double displacementMicrometres(double cmPerSecond, double hertz) {
    return 1e4 * cmPerSecond / (2 * Math.PI * hertz);
  }
}
