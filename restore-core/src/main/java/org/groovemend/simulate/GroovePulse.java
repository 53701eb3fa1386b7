package org.groovemend.simulate;

/**
 * A bump or dent in a groove wall along the groove: half a raised cosine up, half a raised cosine
 * down.
 *
 * <p>The wall returns to its path, so the velocity of the stylus sums to zero over the pulse.
 *
 * @param heightMetres of the top, not negative; the sign comes from the wall factors of an {@link
 *     Impulse}
 * @param riseMetres length of the rising flank along the groove, above 0
 * @param fallMetres length of the falling flank, above 0
 */
public record GroovePulse(double heightMetres, double riseMetres, double fallMetres) {

  public GroovePulse {
    if (!(heightMetres >= 0) || !(riseMetres > 0) || !(fallMetres > 0)) {
      throw new IllegalArgumentException(
          "height " + heightMetres + " m, rise " + riseMetres + " m, fall " + fallMetres + " m");
    }
  }

  /** Time the pulse takes to pass, seconds. */
  public double seconds(double grooveSpeed) {
    return (riseMetres + fallMetres) / grooveSpeed;
  }

  /** Wall displacement, metres, {@code seconds} after the pulse begins. */
  public double displacement(double seconds, double grooveSpeed) {
    double s = seconds * grooveSpeed;
    if (s <= 0 || s >= riseMetres + fallMetres) {
      return 0;
    }
    double phase = s < riseMetres ? s / riseMetres : 1 + (s - riseMetres) / fallMetres;
    return heightMetres * 0.5 * (1 - StrictMath.cos(Math.PI * phase));
  }

  /** Velocity of the wall under the stylus, metres a second: the derivative of the displacement. */
  public double velocity(double seconds, double grooveSpeed) {
    double s = seconds * grooveSpeed;
    if (s <= 0 || s >= riseMetres + fallMetres) {
      return 0;
    }
    double slope =
        s < riseMetres
            ? StrictMath.sin(Math.PI * s / riseMetres) / riseMetres
            : -StrictMath.sin(Math.PI * (s - riseMetres) / fallMetres) / fallMetres;
    return 0.5 * Math.PI * heightMetres * slope * grooveSpeed;
  }
}
