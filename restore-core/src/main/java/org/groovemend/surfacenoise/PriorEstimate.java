package org.groovemend.surfacenoise;

import java.util.Arrays;

/**
 * A-priori signal-to-noise ratio of each line: decision-directed (Y. Ephraim and D. Malah, IEEE TASSP 32(6), 1984), once
 * forward and once backward in time, and the mean of both. Forward alone lags an attack by a frame, backward alone a decay.
 */
final class PriorEstimate {

  private final RecursionBlocks blocks;
  private final FrameRing ring;
  private final double smoothing;
  private final double least;
  private final double[][] prior;
  private final double[] kept;

  PriorEstimate(NoiseParameters parameters, RecursionBlocks blocks, FrameRing ring) {
    this.blocks = blocks;
    this.ring = ring;
    this.smoothing = parameters.priorSmoothing();
    this.least = StrictMath.pow(10, parameters.priorFloorDb() / 10);
    this.prior = new double[blocks.length()][blocks.grid().bins()];
    this.kept = new double[blocks.grid().bins()];
  }

  /** Estimates the frames from one to another, both within a block. */
  void estimate(long from, long to) {
    long low = Math.max(FrameGrid.first(), from - blocks.runIn());
    long high = Math.min(ring.lastFrame(), to + blocks.runIn());
    begin(low, high, 1);
    for (long f = low; f <= to; f++) {
      double[] store = f < from ? null : prior[(int) (f - from)];
      if (store != null) {
        Arrays.fill(store, 0.0);
      }
      step(f, store);
    }
    begin(high, low, -1);
    for (long f = high; f >= from; f--) {
      step(f, f > to ? null : prior[(int) (f - from)]);
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

  private void step(long frame, double[] store) {
    double[] ratio = ring.ratio(frame);
    double scale = ring.inverseLevel(frame);
    for (int k = 0; k < kept.length; k++) {
      double gamma = scale * ratio[k];
      double xi = Math.max(smoothing * kept[k] + (1 - smoothing) * Math.max(gamma - 1, 0), least);
      if (store != null) {
        store[k] += 0.5 * xi;
      }
      kept[k] = LogAmplitudeTable.kept(xi, gamma);
    }
  }

  /**
   * The gains of a frame of the block: the power the log-amplitude gain keeps is itself the better estimate of the a-priori ratio
   * (two-step: C. Plapous, C. Marro and P. Scalart, IEEE TASLP 14(6), 2006), from which the Wiener gain follows.
   */
  void gains(int index, double[] ratio, double inverseLevel, double floor, double[] gain) {
    double[] xi = prior[index];
    for (int k = 0; k < gain.length; k++) {
      double signal = LogAmplitudeTable.kept(xi[k], inverseLevel * ratio[k]);
      gain[k] = Math.max(signal / (1 + signal), floor);
    }
  }
}
