package org.groovemend.surfacenoise;

import org.groovemend.stage.Segmentation;

/**
 * The two frame lengths and how a side is cut for them.
 *
 * @param shortBlocks recursions over the short frames
 * @param longBlocks recursions over the long frames, at least twice as long
 */
record NoiseFrames(RecursionBlocks shortBlocks, RecursionBlocks longBlocks) {

  private static final int SEGMENT_LONG_HOPS = 256;

  static NoiseFrames of(NoiseParameters parameters, int sampleRateHz) {
    return new NoiseFrames(
        RecursionBlocks.of(
            FrameGrid.of(parameters.shortFrameMilliseconds(), sampleRateHz), sampleRateHz),
        RecursionBlocks.of(longGrid(parameters, sampleRateHz), sampleRateHz));
  }

  /** The frames that the profile is taken with. */
  static FrameGrid longGrid(NoiseParameters parameters, int sampleRateHz) {
    return FrameGrid.of(parameters.longFrameMilliseconds(), sampleRateHz);
  }

  /** Samples around a segment that are treated with the long frames for the choice. */
  int margin() {
    FrameGrid s = shortBlocks.grid();
    return (FrameGrid.OVERLAP + LeastRisk.REACH + 1) * s.hop() + s.length();
  }

  Segmentation segmentation() {
    int before = Math.max(shortBlocks.before(), longBlocks.before());
    int after = Math.max(shortBlocks.after(), longBlocks.after());
    return new Segmentation(
        SEGMENT_LONG_HOPS * longBlocks.grid().hop(), margin() + before, margin() + after);
  }
}
