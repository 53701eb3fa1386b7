package org.groovemend.speed;

import org.groovemend.rotation.RotationFinding;

/**
 * What is known beforehand about the speed of a side.
 *
 * @param a4Hz pitch of A that the players are taken to have tuned to, 380 to 480
 * @param playedRpm speed of the turntable in the transfer, or NaN
 * @param meantRpm speed that the disc was made for, or NaN
 * @param radii of the groove, or null for those of the commonest disc of the speed
 * @param hum where hum comes from
 * @param rotation what the repairs tell of the turntable, or null
 */
public record SpeedQuestion(
    double a4Hz,
    double playedRpm,
    double meantRpm,
    GrooveRadii radii,
    HumSource hum,
    RotationFinding rotation) {
  public SpeedQuestion {
    if (!(a4Hz >= 380 && a4Hz <= 480)) {
      throw new IllegalArgumentException(
          "A at " + a4Hz + " Hz is no pitch that players tune to; give 380 to 480, such as 435");
    }
  }
}
