package org.groovemend.report;

import java.util.List;

/**
 * What the picture of the disc says besides the repaired places.
 *
 * @param title one line
 * @param layout where time lies
 * @param speed of the turntable, in words, and where it is from: short lines
 * @param disc which size of disc is assumed, in words
 * @param scratches frames of the ticks of each row that recurs once a turn
 * @param bare ranges of bare groove: first frame, end exclusive
 */
public record DiscMap(
    String title,
    DiscLayout layout,
    List<String> speed,
    String disc,
    List<List<Long>> scratches,
    List<FrameRange> bare) {

  /** Frames from {@code start} to before {@code end}. */
  public record FrameRange(long start, long end) {}

  public DiscMap {
    speed = List.copyOf(speed);
    scratches = List.copyOf(scratches);
    bare = List.copyOf(bare);
  }
}
