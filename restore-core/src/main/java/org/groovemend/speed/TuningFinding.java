package org.groovemend.speed;

import java.util.List;

/**
 * How far the notes lie off a scale of twelve equal steps.
 *
 * @param found whether they gather at one place between two notes of the scale
 * @param a4Hz pitch of A that is assumed
 * @param cents by which they are sharp, -50 to 50; a semitone more or less would fit as well
 * @param halfCents half of the 95 % interval
 * @param pitches notes of the scale that were heard
 * @param overTime the same for parts of the side
 * @param reason a sentence for people
 */
public record TuningFinding(
    boolean found,
    double a4Hz,
    double cents,
    double halfCents,
    int pitches,
    List<Moment> overTime,
    String reason) {
  public TuningFinding {
    overTime = List.copyOf(overTime);
  }

  /**
   * One part of the side.
   *
   * @param seconds its middle
   * @param cents sharp re the assumed pitch, near that of the whole
   * @param halfCents half of the 95 % interval
   */
  public record Moment(double seconds, double cents, double halfCents) {}

  /** Factor that puts the notes on the scale by the shortest way. */
  public double factor() {
    return StrictMath.pow(2, -cents / 1200);
  }

  static TuningFinding none(double a4Hz, int pitches, String reason) {
    return new TuningFinding(false, a4Hz, Double.NaN, Double.NaN, pitches, List.of(), reason);
  }
}
