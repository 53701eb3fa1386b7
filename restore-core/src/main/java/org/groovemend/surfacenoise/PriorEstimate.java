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
  private final int channels;
  private final double smoothing;
  private final double least;
  private final double[][] prior;
  private final double[] kept;
  private final double[] xi;
  private final SoundAbsence absence;

  PriorEstimate(
      NoiseParameters parameters,
      double smoothing,
      RecursionBlocks blocks,
      FrameRing ring,
      int channels) {
    this.channels = channels;
    this.blocks = blocks;
    this.ring = ring;
    this.smoothing = smoothing;
    this.least = StrictMath.pow(10, parameters.priorFloorDb() / 10);
    this.prior = new double[blocks.length()][blocks.grid().bins()];
    this.kept = new double[blocks.grid().bins()];
    this.xi = new double[blocks.grid().bins()];
    this.absence = new SoundAbsence(blocks.grid().bins());
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
   * 14(6), 2006), from which the Wiener gain follows. Between it and the floor the probability that
   * there is sound decides ({@link SoundAbsence}).
   *
   * <p>The line at 0 Hz keeps no more than the two beside it: nothing is recorded there, and being
   * real it scatters twice as widely as the others, so chance alone would open it.
   *
   * @param divergence how much of its own noise a line keeps, mean over the channels: the gain, and
   *     what the noise does to the gain. With g the power over the noise, mean over n channels, it
   *     is G + (dG/d ln g) / n for channels alike in noise
   */
  void gains(
      int index,
      double[] ratio,
      double inverseLevel,
      double floor,
      double[] gain,
      double[] divergence) {
    double[] p = prior[index];
    gains(p, absence.of(p), ratio, inverseLevel, floor, 1.0 / channels, gain, divergence);
  }

  static void gains(
      double[] p,
      double[] absence,
      double[] ratio,
      double inverseLevel,
      double floor,
      double share,
      double[] gain,
      double[] divergence) {
    for (int k = 0; k < gain.length; k++) {
      double gamma = inverseLevel * ratio[k];
      double w = p[k] / (1 + p[k]);
      double v = w * gamma;
      double signal = w * LogAmplitudeTable.h(v);
      double slope = w * v * LogAmplitudeTable.slope(v);
      if (signal > gamma) {
        signal = gamma;
        slope = gamma;
      }
      double rest = 1 / (1 + signal);
      double g = signal * rest;
      if (g > floor) {
        double change = slope * rest * rest;
        if (absence[k] > 0) {
          double sound = SoundAbsence.presence(absence[k], p[k], v);
          change = sound * (change + (1 - sound) * v * (g - floor));
          g = floor + sound * (g - floor);
        }
        gain[k] = g;
        divergence[k] = g + share * change;
      } else {
        gain[k] = floor;
        divergence[k] = floor;
      }
    }
    double most = Math.min(gain[1], gain[2]);
    if (gain[0] > most) {
      gain[0] = most;
      divergence[0] = most;
    }
  }
}
