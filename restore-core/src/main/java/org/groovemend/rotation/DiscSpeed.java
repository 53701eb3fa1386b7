package org.groovemend.rotation;

import java.util.Optional;

/**
 * Nominal speeds of discs, and the size of the recorded area that is commonest at each.
 *
 * <p>78.26 and 77.92 are what stroboscopes of 92 bars at 60 Hz and 77 bars at 50 Hz show (120 times
 * 60 / 92, 100 times 60 / 77); scratches, which drift, cannot tell them apart. Radii of the
 * recorded area: dimensions of IEC 60098 and of the American standard before it, from memory.
 */
public enum DiscSpeed {
  SIXTEEN("16 2/3", 50.0 / 3, "12 inch fine groove", 146.05, 60.325),
  THIRTY_THREE("33 1/3", 100.0 / 3, "12 inch fine groove", 146.05, 60.325),
  FORTY_FIVE("45", 45, "7 inch", 84.14, 53.975),
  SEVENTY_EIGHT("78.26 or 77.92", 7200.0 / 92, "10 inch coarse groove", 120.65, 47.625),
  EIGHTY("80", 80, "10 inch coarse groove", 120.65, 47.625);

  /** How far, as a share, a speed may be from a nominal one and still be called by its name. */
  static final double NEAR = 0.008;

  private final String words;
  private final double rpm;
  private final String disc;
  private final double outerMm;
  private final double innerMm;

  DiscSpeed(String words, double rpm, String disc, double outerMm, double innerMm) {
    this.words = words;
    this.rpm = rpm;
    this.disc = disc;
    this.outerMm = outerMm;
    this.innerMm = innerMm;
  }

  /** As people write it: "33 1/3". */
  public String words() {
    return words;
  }

  /** Turns a minute. */
  public double rpm() {
    return rpm;
  }

  /** The commonest disc of this speed, in words. */
  public String disc() {
    return disc;
  }

  /** Outermost radius of its recorded area, mm. */
  public double outerMm() {
    return outerMm;
  }

  /** Innermost radius of its recorded area, mm. */
  public double innerMm() {
    return innerMm;
  }

  /** The nearest nominal speed. */
  public static DiscSpeed nearest(double rpm) {
    DiscSpeed nearest = THIRTY_THREE;
    for (DiscSpeed speed : values()) {
      if (distance(rpm, speed) < distance(rpm, nearest)) {
        nearest = speed;
      }
    }
    return nearest;
  }

  /** The nominal speed that this one is, within {@value #NEAR}. */
  public static Optional<DiscSpeed> of(double rpm) {
    DiscSpeed nearest = nearest(rpm);
    return distance(rpm, nearest) <= NEAR ? Optional.of(nearest) : Optional.empty();
  }

  private static double distance(double rpm, DiscSpeed speed) {
    return Math.abs(rpm / speed.rpm - 1);
  }
}
