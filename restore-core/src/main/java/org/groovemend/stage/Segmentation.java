package org.groovemend.stage;

/**
 * How a stage wants the side cut.
 *
 * @param segmentFrames length of a segment; segment k is [k * segmentFrames, (k + 1) *
 *     segmentFrames), clipped to the side
 * @param contextBefore frames of input before the segment that its result may depend on
 * @param contextAfter frames of input after the segment that its result may depend on
 */
public record Segmentation(int segmentFrames, int contextBefore, int contextAfter) {
  public Segmentation {
    if (segmentFrames < 1 || contextBefore < 0 || contextAfter < 0) {
      throw new IllegalArgumentException(
          "segment "
              + segmentFrames
              + " with context "
              + contextBefore
              + ", "
              + contextAfter
              + " frames: the segment must be at least 1, the context at least 0");
    }
  }
}
