package org.groovemend.leadin;

/**
 * Where the groove alone is heard, and how sure that is.
 *
 * @param found whether there is a stretch to take as groove noise
 * @param startFrame first frame of the stretch, 0 if none
 * @param endFrame end of the stretch, exclusive, 0 if none
 * @param confidence 0 (none found) to 1
 * @param reason in words for people: why it was taken, or why none was
 * @param levelDbfs mean square of the stretch over all channels, dB re that of a constant 1.0; NaN
 *     if none
 * @param stated true if a person gave the stretch
 * @param runOut the like stretch behind the music, or null
 */
public record LeadInFinding(
    boolean found,
    long startFrame,
    long endFrame,
    double confidence,
    String reason,
    double levelDbfs,
    boolean stated,
    RunOut runOut) {

  public LeadInFinding {
    if (found && !(startFrame >= 0 && endFrame > startFrame)) {
      throw new IllegalArgumentException(
          "frames " + startFrame + " to " + endFrame + " are no stretch");
    }
    if (!(confidence >= 0 && confidence <= 1)) {
      throw new IllegalArgumentException("confidence " + confidence + " is outside 0 to 1");
    }
  }

  public long frames() {
    return endFrame - startFrame;
  }

  static LeadInFinding none(String reason, RunOut runOut) {
    return new LeadInFinding(false, 0, 0, 0, reason, Double.NaN, false, runOut);
  }

  /**
   * A stretch a person has stated; it is taken as it is.
   *
   * @param startFrame at least 0
   * @param endFrame exclusive, above {@code startFrame}
   * @param sideFrames length of the side
   * @throws IllegalArgumentException if the stretch is empty or not within the side; the message is
   *     a sentence for people
   */
  public static LeadInFinding stated(long startFrame, long endFrame, long sideFrames) {
    if (startFrame < 0 || endFrame <= startFrame || endFrame > sideFrames) {
      throw new IllegalArgumentException(
          "the stated lead-in, frames "
              + startFrame
              + " to "
              + endFrame
              + ", does not lie within the side of "
              + sideFrames
              + " frames: state a start before its end, both within the side");
    }
    return new LeadInFinding(
        true, startFrame, endFrame, 1.0, "stated by a person", Double.NaN, true, null);
  }

  /**
   * Groove alone behind the music.
   *
   * @param startFrame first frame
   * @param endFrame end, exclusive
   * @param confidence 0 to 1
   * @param levelDbfs as {@link LeadInFinding#levelDbfs()}
   */
  public record RunOut(long startFrame, long endFrame, double confidence, double levelDbfs) {}
}
