package org.groovemend.speed;

import java.util.List;

/**
 * Pitch that sways once a turn, for the hole is not in the middle of the groove.
 *
 * <p>At radius r the speed deviates by e / r of itself, e being how far the hole is off: a share
 * that grows inwards (check-values, section 6: 0.2 mm at 60.325 mm give 0.33154 % peak).
 *
 * @param turnSeconds time of one turn in the transfer
 * @param outerMm radius of the groove at the first frame, mm
 * @param mmPerSecond by which it shrinks
 * @param parts what sways once a turn, and perhaps twice
 */
public record Wow(double turnSeconds, double outerMm, double mmPerSecond, List<Part> parts) {

  /** Nearer the middle than any groove. */
  private static final double LEAST_MM = 20;

  /** What can be an off-centre hole: half the groove is off at most 5 mm. */
  private static final double MOST_MM = 5;

  public Wow {
    parts = List.copyOf(parts);
    if (!(turnSeconds > 0.3 && turnSeconds < 10 && outerMm > LEAST_MM && mmPerSecond >= 0)) {
      throw new IllegalArgumentException(
          "no disc: a turn of "
              + turnSeconds
              + " s at "
              + outerMm
              + " mm, "
              + mmPerSecond
              + " mm less each second");
    }
    for (Part part : parts) {
      if (!(part.amplitudeMm() <= MOST_MM)) {
        throw new IllegalArgumentException("a hole " + part.amplitudeMm() + " mm off the middle");
      }
    }
  }

  /**
   * One sinusoid.
   *
   * @param order 1 for once a turn, 2 for twice
   * @param cosMm share of the cosine of the angle since frame 0, times the radius, mm
   * @param sinMm of the sine
   */
  public record Part(int order, double cosMm, double sinMm) {

    /** How far off the hole is, mm, if {@link #order} is 1. */
    public double amplitudeMm() {
      return Math.sqrt(cosMm * cosMm + sinMm * sinMm);
    }
  }

  /** Radius of the groove, mm. */
  public double radiusMm(double seconds) {
    return Math.max(LEAST_MM, outerMm - mmPerSecond * seconds);
  }

  /** By what share the transfer is too fast at a moment. */
  public double deviation(double seconds) {
    double turns = seconds / turnSeconds;
    double angle = 2 * Math.PI * (turns - Math.floor(turns));
    double sum = 0;
    for (Part part : parts) {
      sum +=
          part.cosMm * StrictMath.cos(part.order * angle)
              + part.sinMm * StrictMath.sin(part.order * angle);
    }
    return sum / radiusMm(seconds);
  }

  /** Peak of the part that sways once a turn, as a share, at a moment. */
  public double peak(double seconds) {
    double mm = 0;
    for (Part part : parts) {
      mm += part.order == 1 ? part.amplitudeMm() : 0;
    }
    return mm / radiusMm(seconds);
  }
}
