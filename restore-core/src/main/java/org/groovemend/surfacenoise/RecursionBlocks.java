package org.groovemend.surfacenoise;

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
  private static final double LEVEL_REACH_SECONDS = 0.25;
  private static final double LEAST_BLOCK_SECONDS = 1.2;

  static RecursionBlocks of(FrameGrid grid, int sampleRateHz) {
    double perSecond = sampleRateHz / (double) grid.hop();
    int length = 8;
    while (length < LEAST_BLOCK_SECONDS * perSecond) {
      length *= 2;
    }
    return new RecursionBlocks(
        grid,
        length,
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

  /** Samples before a wanted sample that its frames may depend on. */
  int before() {
    return (FrameGrid.OVERLAP + length + runIn + levelReach) * grid.hop();
  }

  /** Samples after a wanted sample that its frames may depend on. */
  int after() {
    return (FrameGrid.OVERLAP + length + runIn + levelReach) * grid.hop() + grid.length();
  }
}
