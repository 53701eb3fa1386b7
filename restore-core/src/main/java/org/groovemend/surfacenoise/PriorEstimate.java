package org.groovemend.surfacenoise;

import java.util.Arrays;

/**
 * A-priori signal-to-noise ratio of each line: decision-directed (Y. Ephraim and D. Malah, IEEE
 * TASSP 32(6), 1984), once forward and once backward in time, and the mean of both. Forward alone
 * lags an attack by a frame, backward alone a decay.
 */
final class PriorEstimate {

  /**
   * The mean may exceed the lesser of the two directions by this much: one that sees nothing, ahead
   * of a hit or after a sound is cut off, keeps the noise there from being let through.
   */
  private static final double DISAGREEMENT = 20;

  private final RecursionBlocks blocks;
  private final FrameRing ring;
  private final double smoothing;
  private final double least;
  private final double[][] prior;
  private final double[] kept;
  private final double[] xi;

  PriorEstimate(NoiseParameters parameters, RecursionBlocks blocks, FrameRing ring) {
    this.blocks = blocks;
    this.ring = ring;
    this.smoothing = parameters.priorSmoothing();
    this.least = StrictMath.pow(10, parameters.priorFloorDb() / 10);
    this.prior = new double[blocks.length()][blocks.grid().bins()];
    this.kept = new double[blocks.grid().bins()];
    this.xi = new double[blocks.grid().bins()];
  }

  /**
   * Estimates the frames of a block.
   *
   * @param from first frame of the block
   * @param to last frame of it
   * @param wanted last frame whose estimate is asked for
   */
  void estimate(long from, long to, long wanted) {
    long low = Math.max(FrameGrid.first(), from - blocks.runIn());
    long high = Math.min(ring.lastFrame(), to + blocks.runIn());
    begin(low, high, 1);
    for (long f = low; f < from; f++) {
      step(f, xi);
    }
    for (long f = from; f <= wanted; f++) {
      step(f, prior[(int) (f - from)]);
    }
    begin(high, low, -1);
    for (long f = high; f >= from; f--) {
      step(f, xi);
      if (f <= wanted) {
        double[] p = prior[(int) (f - from)];
        for (int k = 0; k < p.length; k++) {
          p[k] = Math.min(0.5 * (p[k] + xi[k]), DISAGREEMENT * Math.min(p[k], xi[k]));
        }
      }
    }
  }

  /** The recursion starts from what three frames show together. */
  private void begin(long start, long end, int direction) {
    Arrays.fill(kept, 0.0);
    int count = (int) Math.min(3, Math.abs(end - start) + 1);
    for (int i = 0; i < count; i++) {
      double[] ratio = ring.ratio(start + (long) i * direction);
      double scale = ring.inverseLevel(start + (long) i * direction) / count;
      for (int k = 0; k < kept.length; k++) {
        kept[k] += scale * ratio[k];
      }
    }
    for (int k = 0; k < kept.length; k++) {
      kept[k] = Math.max(kept[k] - 1, 0);
    }
  }

  private void step(long frame, double[] into) {
    double[] ratio = ring.ratio(frame);
    double scale = ring.inverseLevel(frame);
    double fresh = 1 - smoothing;
    for (int k = 0; k < kept.length; k++) {
      double gamma = scale * ratio[k];
      double x = Math.max(smoothing * kept[k] + fresh * Math.max(gamma - 1, 0), least);
      into[k] = x;
      kept[k] = LogAmplitudeTable.kept(x, gamma);
    }
  }

  /**
   * The gains of a frame of the block: the power the log-amplitude gain keeps is itself the better
   * estimate of the a-priori ratio (two-step: C. Plapous, C. Marro and P. Scalart, IEEE TASLP
   * 14(6), 2006), from which the Wiener gain follows.
   *
   * <p>The line at 0 Hz keeps no more than the two beside it: nothing is recorded there, and being
   * real it scatters twice as widely as the others, so chance alone would open it.
   */
  void gains(int index, double[] ratio, double inverseLevel, double floor, double[] gain) {
    double[] p = prior[index];
    for (int k = 0; k < gain.length; k++) {
      double signal = LogAmplitudeTable.kept(p[k], inverseLevel * ratio[k]);
      gain[k] = Math.max(signal / (1 + signal), floor);
    }
    gain[0] = Math.min(gain[0], Math.min(gain[1], gain[2]));
  }
}
