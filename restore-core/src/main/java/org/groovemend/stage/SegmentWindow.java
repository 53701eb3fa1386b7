package org.groovemend.stage;

/**
 * The input of one segment with its context, clipped to the side. Read only, and valid only during
 * the call.
 *
 * @param samples one array per channel, full scale 1.0; index 0 is frame {@code firstFrame}; only
 *     {@code length} are valid
 * @param firstFrame frame number of index 0
 * @param length valid samples per channel
 * @param segmentStart first frame of the segment itself
 * @param segmentEnd end of the segment itself, exclusive
 * @param sideFrames length of the whole side
 */
public record SegmentWindow(
    double[][] samples,
    long firstFrame,
    int length,
    long segmentStart,
    long segmentEnd,
    long sideFrames) {

  public int channels() {
    return samples.length;
  }

  /** Index of the segment's first frame in the arrays. */
  public int startIndex() {
    return (int) (segmentStart - firstFrame);
  }

  /** Index of the segment's end in the arrays, exclusive. */
  public int endIndex() {
    return (int) (segmentEnd - firstFrame);
  }
}
