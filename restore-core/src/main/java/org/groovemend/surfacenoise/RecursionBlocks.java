package org.groovemend.surfacenoise;

import org.groovemend.stage.Segmentation;

/**
 * Where recursions over frames begin anew: at frame numbers that depend on nothing but the grid,
 * each with frames to run in from both sides. So a frame is treated alike whatever segment it is
 * computed for, to the last bit.
 *
 * @param grid the frames
 * @param length frames of a block; block b is the frames [first + b length, first + (b + 1) length)
 * @param runIn frames before and after a block over which its recursions settle
 * @param levelReach frames before and after a frame that its noise level depends on
 */
record RecursionBlocks(FrameGrid grid, int length, int runIn, int levelReach) {

  private static final double RUN_IN_SECONDS = 0.28;
  private static final double LEVEL_REACH_SECONDS = 0.12;
  private static final int SEGMENT_BLOCKS = 8;

  static RecursionBlocks of(FrameGrid grid, int sampleRateHz) {
    double perSecond = sampleRateHz / (double) grid.hop();
    return new RecursionBlocks(
        grid,
        64,
        Math.max(8, (int) Math.round(RUN_IN_SECONDS * perSecond)),
        Math.max(2, (int) Math.round(LEVEL_REACH_SECONDS * perSecond)));
  }

  long block(long frame) {
    return Math.floorDiv(frame - FrameGrid.first(), (long) length);
  }

  long start(long block) {
    return FrameGrid.first() + block * length;
  }

  /** Frames that must be at hand at once. */
  int span() {
    return length + 2 * (runIn + levelReach);
  }

  /**
   * Whole blocks, so that the first frame of a segment begins a block; its last three frames need
   * the block after, whole and with its run-in.
   */
  Segmentation segmentation() {
    int before = (FrameGrid.OVERLAP - 1 + runIn + levelReach) * grid.hop();
    int after = (length + runIn + levelReach) * grid.hop() + grid.length();
    return new Segmentation(SEGMENT_BLOCKS * length * grid.hop(), before, after);
  }
}
