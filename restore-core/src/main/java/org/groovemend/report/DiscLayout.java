package org.groovemend.report;

/**
 * How the time of a side lies on its disc: a spiral of constant pitch from the outer to the inner
 * radius, which the whole side fills; the first frame lies at angle 0.
 *
 * @param frames length of the side, at least 1
 * @param sampleRateHz frames a second
 * @param turnSeconds time of one turn
 * @param outerMm radius of the first frame
 * @param innerMm radius of the end, smaller
 */
public record DiscLayout(
    long frames, int sampleRateHz, double turnSeconds, double outerMm, double innerMm) {

  public DiscLayout {
    if (frames < 1 || sampleRateHz < 1) {
      throw new IllegalArgumentException(frames + " frames at " + sampleRateHz + " Hz are no side");
    }
    if (!(turnSeconds > 0) || !(innerMm > 0) || !(outerMm > innerMm)) {
      throw new IllegalArgumentException(
          "a turn of " + turnSeconds + " s from " + outerMm + " to " + innerMm + " mm is no disc");
    }
  }

  /** Turns of the disc from the first frame to this one. */
  double turns(long frame) {
    return frame / (double) sampleRateHz / turnSeconds;
  }

  double radiusMm(long frame) {
    return outerMm - (outerMm - innerMm) * frame / frames;
  }

  /**
   * To the right of the centre, mm, seen from above with angle 0 at the top. The disc turns
   * clockwise under the stylus, so what is played later lies further counter-clockwise.
   */
  double rightMm(long frame) {
    return -radiusMm(frame) * StrictMath.sin(angle(frame));
  }

  /** Above the centre, mm. */
  double upMm(long frame) {
    return radiusMm(frame) * StrictMath.cos(angle(frame));
  }

  private double angle(long frame) {
    double turns = turns(frame);
    return 2 * Math.PI * (turns - Math.floor(turns));
  }

  /** From one turn to the next, mm. */
  double pitchMm() {
    return (outerMm - innerMm) * turnSeconds * sampleRateHz / frames;
  }
}
