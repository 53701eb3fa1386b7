package org.groovemend.speed;

/**
 * Radii of the groove at the first and last frame of a side.
 *
 * @param outerMm first
 * @param innerMm last, below it
 */
public record GrooveRadii(double outerMm, double innerMm) {
  public GrooveRadii {
    if (!(innerMm >= 25 && outerMm > innerMm && outerMm <= 260)) {
      throw new IllegalArgumentException(
          "radii of " + outerMm + " to " + innerMm + " mm are no groove; give such as 146-60");
    }
  }

  /** Share of the outer radius that is lost on the way. */
  double shrink() {
    return 1 - innerMm / outerMm;
  }
}
