package org.groovemend.speed;

import java.util.List;

/**
 * What of the pitch sways once a turn.
 *
 * @param found whether wow is claimed: {@code chance} is at most {@value #MOST_CHANCE}
 * @param wow what was found, or null
 * @param turnSecondsHalf half of the 95 % interval of the turn, seconds
 * @param peak deviation once a turn in the middle of the side, as a share: the best fit, claimed or
 *     not
 * @param peakHalf half of its 95 % interval
 * @param chance probability, at most, that music without wow would show as much at any of the
 *     speeds looked at
 * @param radiusFitted true if the growth inwards was fitted to the side; false if it is that of the
 *     radii
 * @param turn pitch by the angle of the disc, mean over all turns, scaled to the middle of the
 *     side; empty if none is claimed
 * @param reason a sentence for people
 */
public record WowFinding(
    boolean found,
    Wow wow,
    double turnSecondsHalf,
    double peak,
    double peakHalf,
    double chance,
    boolean radiusFitted,
    List<Angle> turn,
    String reason) {
  public WowFinding {
    turn = List.copyOf(turn);
  }

  /**
   * Pitch at one angle.
   *
   * @param degrees of the turn since frame 0
   * @param deviation share by which it is too high
   * @param half half of the 95 % interval
   */
  public record Angle(double degrees, double deviation, double half) {}

  /** Above this probability of chance, no wow is claimed. */
  public static final double MOST_CHANCE = 1e-3;

  static WowFinding none(double peak, double peakHalf, double chance, String reason) {
    return new WowFinding(
        false, null, Double.NaN, peak, peakHalf, chance, false, List.of(), reason);
  }
}
