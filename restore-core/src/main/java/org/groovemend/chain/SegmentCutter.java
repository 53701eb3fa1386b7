package org.groovemend.chain;

import java.io.IOException;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;

/** Cuts single segments with their context out of a side. */
final class SegmentCutter {

  private SegmentCutter() {}

  /** The window of the segment that begins at {@code segmentStart}. */
  static SegmentWindow cut(RangeReader side, Segmentation cut, long segmentStart)
      throws IOException {
    long segmentEnd = Math.min(side.frames(), segmentStart + cut.segmentFrames());
    long first = Math.max(0, segmentStart - cut.contextBefore());
    int length = (int) (Math.min(side.frames(), segmentEnd + cut.contextAfter()) - first);
    double[][] samples = new double[side.format().channels()][length];
    side.read(first, length, samples);
    return new SegmentWindow(samples, first, length, segmentStart, segmentEnd, side.frames());
  }
}
