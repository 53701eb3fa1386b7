package org.groovemend.surfacenoise;

/**
 * Groove noise along a side: that of the lead-in turns into that of the run-out as the groove runs
 * inward.
 *
 * <p>The groove slows down in proportion to its radius, and its noise changes with it. At an even
 * pitch the radius falls evenly with time, so the level of every line, in dB, is taken to move
 * evenly with time from the middle of the one stretch to the middle of the other, and to stay
 * beyond them. A line moves by {@link #MOST_DB} at most: what differs more is not the groove alone.
 *
 * @param leadIn noise at the beginning, or all along if there is no other
 * @param runOut noise at the end, same rate, channels and frame length, or null
 * @param swing how it swings with the turning of the disc besides, or null
 */
public record SideNoise(GrooveNoise leadIn, GrooveNoise runOut, TurnSwing swing) {
  static final double MOST_DB = 12;

  public SideNoise {
    if (runOut != null
        && (runOut.sampleRateHz() != leadIn.sampleRateHz()
            || runOut.frameLength() != leadIn.frameLength()
            || runOut.power().length != leadIn.power().length
            || runOut.startFrame() < leadIn.endFrame())) {
      throw new IllegalArgumentException("lead-in and run-out do not belong to one side");
    }
  }

  /** Noise that does not swing with the turning of the disc, or is not known to. */
  public SideNoise(GrooveNoise leadIn, GrooveNoise runOut) {
    this(leadIn, runOut, null);
  }

  public SideNoise withSwing(TurnSwing found) {
    return new SideNoise(leadIn, runOut, found);
  }

  SideNoise atFrameLength(int shorter) {
    return new SideNoise(
        leadIn.atFrameLength(shorter),
        runOut == null ? null : runOut.atFrameLength(shorter),
        swing);
  }

  int channels() {
    return leadIn.power().length;
  }

  /** How far a sample lies on the way from the lead-in to the run-out, 0 to 1. */
  double way(double sample) {
    if (runOut == null) {
      return 0;
    }
    double from = 0.5 * (leadIn.startFrame() + leadIn.endFrame());
    double to = 0.5 * (runOut.startFrame() + runOut.endFrame());
    return Math.max(0, Math.min(1, (sample - from) / (to - from)));
  }
}
