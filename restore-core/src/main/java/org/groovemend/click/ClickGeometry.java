package org.groovemend.click;

/**
 * Lengths in samples at one sampling rate.
 *
 * @param hop block step; blocks begin at multiples of it counted from frame 0 of the side
 * @param order of the detection model
 * @param repairOrder of the interpolation model
 * @param repairContext samples each side of a gap that the first interpolation models are fitted to
 * @param longContext the same for the last model, at most
 * @param longest longest gap that is filled
 * @param longestCore longest place the detector takes for damage; its tail may add to it
 * @param local samples each side of a candidate from which its surroundings are judged
 */
record ClickGeometry(
    int hop,
    int order,
    int repairOrder,
    int repairContext,
    int longContext,
    int longest,
    int longestCore,
    int local) {

  private static final double LONGEST_CORE_MILLISECONDS = 4;

  static ClickGeometry of(ClickParameters p, int rate) {
    int hop = 1024;
    while (hop * 60L < rate) {
      hop *= 2;
    }
    double scale = hop / 1024.0;
    return new ClickGeometry(
        hop,
        (int) Math.round(p.detectionOrderAt44100Hz() * scale / 4) * 4,
        Math.min(1024, p.repairOrder()),
        // so that context, order and a short gap fit a transform of a power of two
        (int) ((2048 - 48) * scale) - Math.min(1024, p.repairOrder()) / 2,
        (int) ((p.longestRepairMilliseconds() > 10 ? 8192 : 4096) * scale),
        Math.max(1, (int) (p.longestRepairMilliseconds() * rate / 1000)),
        Math.max(
            1,
            (int)
                (Math.min(LONGEST_CORE_MILLISECONDS, p.longestRepairMilliseconds()) * rate / 1000)),
        hop / 4);
  }

  int window() {
    return 2 * hop;
  }

  /** Frames to each side that a fill between looks, or a look at a block, depends on. */
  int reach() {
    return repairContext + 2 * longest + repairOrder + 4 * hop;
  }

  /** Frames to each side that the last fill of a gap depends on. */
  int lastReach() {
    return reach() + longContext - repairContext;
  }

  int context(int rate) {
    int needed = (ClickWorker.PASSES - 1) * reach() + lastReach() + 6 * hop + longest;
    int blocks = Math.max(needed, rate / 5) / hop + 1;
    return blocks * hop;
  }
}
