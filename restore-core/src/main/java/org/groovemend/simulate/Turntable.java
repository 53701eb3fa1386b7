package org.groovemend.simulate;

/**
 * Where the stylus is on the disc and how fast the groove passes it.
 *
 * @param rpm turns a minute, above 0
 * @param startRadiusMetres radius at time 0
 * @param pitchMetres how far the groove moves inward in a turn, at least 0
 */
public record Turntable(double rpm, double startRadiusMetres, double pitchMetres) {

  /** 60 Hz lamp on 92 bars: 120 * 60 / 92. */
  public static final double COARSE_GROOVE_RPM = 7200.0 / 92.0;

  public Turntable {
    if (!(rpm > 0) || !(startRadiusMetres > 0) || !(pitchMetres >= 0)) {
      throw new IllegalArgumentException(
          "rpm " + rpm + ", radius " + startRadiusMetres + " m, pitch " + pitchMetres + " m");
    }
  }

  public double turnSeconds() {
    return 60 / rpm;
  }

  /** Turns since time 0; the fraction is the angle. */
  public double turns(double seconds) {
    return seconds * rpm / 60;
  }

  public double radiusMetres(double seconds) {
    return startRadiusMetres - pitchMetres * turns(seconds);
  }

  /** v = 2 pi r n, metres a second. */
  public double grooveSpeed(double seconds) {
    return 2 * Math.PI * radiusMetres(seconds) * rpm / 60;
  }
}
