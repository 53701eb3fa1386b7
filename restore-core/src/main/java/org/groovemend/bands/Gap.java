package org.groovemend.bands;

/**
 * A stretch between two bands in which the groove alone is heard.
 *
 * @param startFrame the band before is heard up to here
 * @param endFrame the next band is heard from here on
 * @param confidence 0 to 1 that it is a gap between bands
 * @param excessDb by how much the stretch lies above the bare groove, mean of its rows
 * @param reason in words for people
 */
public record Gap(
    long startFrame, long endFrame, double confidence, double excessDb, String reason) {
  public Gap {
    if (startFrame < 0 || endFrame <= startFrame) {
      throw new IllegalArgumentException("frames " + startFrame + " to " + endFrame + " are none");
    }
    if (!(confidence >= 0 && confidence <= 1)) {
      throw new IllegalArgumentException("confidence " + confidence + " is outside 0 to 1");
    }
  }

  public long frames() {
    return endFrame - startFrame;
  }
}
