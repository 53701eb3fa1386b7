package org.groovemend.deliverable;

/**
 * The loudness that copies are to have.
 *
 * @param targetLufs integrated, -70 to 0
 * @param perSet true for one gain for all sides, so that their levels stay as they are to one
 *     another
 * @param peakDbtp true peak that is not exceeded, -60 to -0.1: the dither needs a little room
 */
public record LoudnessWish(double targetLufs, boolean perSet, double peakDbtp) {

  public LoudnessWish {
    require(targetLufs, -70, 0, "the target of the loudness", "LUFS");
    require(peakDbtp, -60, -0.1, "the peak", "dBTP");
  }

  private static void require(double value, double least, double most, String what, String unit) {
    if (!(value >= least && value <= most)) {
      throw new IllegalArgumentException(
          what + ", " + value + " " + unit + ", is outside " + least + " to " + most + " " + unit);
    }
  }
}
