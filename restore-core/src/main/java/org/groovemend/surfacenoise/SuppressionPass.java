package org.groovemend.surfacenoise;

import org.groovemend.signal.fft.RealFft;
import org.groovemend.stage.SegmentWindow;

/** Gains of one frame length over a stretch of the side, frame by frame in order. */
final class SuppressionPass {

  /**
   * What is done with a frame.
   *
   * <p>All arrays are the pass's own and last until the next frame.
   */
  interface Sink {
    /**
     * Takes a frame.
     *
     * @param frame its number
     * @param gain one for each line
     * @param divergence for each line, what {@link PriorEstimate#gains} says of it
     * @param level power of the groove noise over its profile in this frame
     */
    void accept(long frame, double[] gain, double[] divergence, double level);
  }

  private final RecursionBlocks blocks;
  private final FrameRing ring;
  private final PriorEstimate priors;
  private final double[] gain;
  private final double[] divergence;
  private final double floor;

  /**
   * Makes a pass with buffers of its own.
   *
   * @param priorSmoothing weight of the neighbouring frame
   * @param noise for the frame length of {@code blocks}
   */
  SuppressionPass(
      NoiseParameters parameters,
      double priorSmoothing,
      SideNoise noise,
      RecursionBlocks blocks,
      double[] window,
      RealFft fft) {
    this.blocks = blocks;
    this.ring = new FrameRing(parameters, noise, blocks, window, fft);
    this.priors = new PriorEstimate(parameters, priorSmoothing, blocks, ring, noise.channels());
    this.gain = new double[blocks.grid().bins()];
    this.divergence = new double[blocks.grid().bins()];
    this.floor = parameters.gainFloor();
  }

  /** Spectrum of a frame before any gain, as long as its sink is at work. */
  double[] spectrum(int channel, long frame) {
    return ring.spectrum(channel, frame);
  }

  /** Hands over the frames from {@code first} to {@code last}, those that the side has. */
  void run(SegmentWindow segment, long first, long last, Sink sink) {
    ring.start(segment);
    long low = Math.max(first, FrameGrid.first());
    long high = Math.min(last, ring.lastFrame());
    for (long b = blocks.block(low); b <= blocks.block(high); b++) {
      long from = blocks.start(b);
      long to = Math.min(from + blocks.length() - 1, ring.lastFrame());
      long wanted = Math.min(to, high);
      ring.require(from - blocks.runIn(), to + blocks.runIn());
      priors.estimate(from, to, wanted);
      for (long f = Math.max(from, low); f <= wanted; f++) {
        double inverseLevel = ring.inverseLevel(f);
        priors.gains((int) (f - from), ring.ratio(f), inverseLevel, floor, gain, divergence);
        sink.accept(f, gain, divergence, 1 / inverseLevel);
      }
    }
  }
}
