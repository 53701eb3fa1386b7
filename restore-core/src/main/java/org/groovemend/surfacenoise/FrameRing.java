package org.groovemend.surfacenoise;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.stage.SegmentWindow;

/** The spectra around the block at work, by frame number, each computed once. */
final class FrameRing {

  private final RecursionBlocks blocks;
  private final FrameGrid grid;
  private final double[] window;
  private final RealFft fft;
  private final LocalNoise noise;
  private final double[][][] spectra;
  private final double[][] ratios;
  private final double[][] statistics;
  private final double[] inverseLevels;
  private final LevelTracker tracker;
  private final double[] trackerWeights;
  private final double[] smoothed;
  private final double[] power;
  private final boolean tracking;
  private final int mask;

  private SegmentWindow segment;
  private long lastFrame;
  private long next;
  private long nextLevel;

  FrameRing(
      NoiseParameters parameters,
      SideNoise sideNoise,
      RecursionBlocks blocks,
      double[] window,
      RealFft fft) {
    this.blocks = blocks;
    this.grid = blocks.grid();
    this.window = window;
    this.fft = fft;
    int channels = sideNoise.channels();
    int capacity = Integer.highestOneBit(blocks.span() - 1) * 2;
    this.mask = capacity - 1;
    this.noise = new LocalNoise(sideNoise, grid);
    this.spectra = new double[channels][capacity][grid.length()];
    this.ratios = new double[capacity][grid.bins()];
    this.tracker = new LevelTracker(grid.bins(), parameters.levelRangeDb());
    this.tracking = parameters.levelRangeDb() > 0;
    this.statistics = new double[capacity][tracker.bands()];
    this.inverseLevels = new double[capacity];
    this.smoothed = new double[tracker.bands()];
    this.power = new double[grid.bins()];
    int reach = blocks.levelReach();
    this.trackerWeights = new double[reach + 1];
    for (int i = 0; i <= reach; i++) {
      trackerWeights[i] = 0.5 + 0.5 * StrictMath.cos(Math.PI * i / (reach + 1));
    }
  }

  void start(SegmentWindow segment) {
    this.segment = segment;
    this.lastFrame = grid.last(segment.sideFrames());
    this.next = Long.MIN_VALUE;
  }

  /** Last frame that covers any sample of the side. */
  long lastFrame() {
    return lastFrame;
  }

  /** Makes the frames and their levels available, clipped to the side; ranges only ever move on. */
  void require(long from, long to) {
    long low = Math.max(FrameGrid.first(), from);
    long high = Math.min(lastFrame, to);
    if (next == Long.MIN_VALUE) {
      next = Math.max(FrameGrid.first(), low - blocks.levelReach());
      nextLevel = low;
    }
    for (; next <= Math.min(lastFrame, high + blocks.levelReach()); next++) {
      analyse(next);
    }
    for (; nextLevel <= high; nextLevel++) {
      inverseLevels[(int) (nextLevel & mask)] =
          1 / ((tracking ? level(nextLevel) : 1.0) * noise.turn(nextLevel));
    }
  }

  double[] spectrum(int channel, long frame) {
    return spectra[channel][(int) (frame & mask)];
  }

  /** Power over the groove noise, mean over the channels. */
  double[] ratio(long frame) {
    return ratios[(int) (frame & mask)];
  }

  double inverseLevel(long frame) {
    return inverseLevels[(int) (frame & mask)];
  }

  private void analyse(long frame) {
    int slot = (int) (frame & mask);
    double[] ratio = ratios[slot];
    Arrays.fill(ratio, 0.0);
    Arrays.fill(statistics[slot], 0.0);
    double weight = 1.0 / spectra.length;
    noise.moveTo(frame);
    double still =
        1 / noise.turn(frame); // the level is followed beside the turning, not through it
    for (int c = 0; c < spectra.length; c++) {
      double[] s = spectra[c][slot];
      load(frame, segment.samples()[c], s);
      fft.forward(s);
      Spectra.power(s, power);
      double[] inverse = noise.inverse(c);
      for (int k = 0; k < power.length; k++) {
        double r = power[k] * inverse[k];
        power[k] = r * still;
        ratio[k] += weight * r;
      }
      if (tracking) {
        tracker.add(power, weight, statistics[slot]);
      }
    }
  }

  private void load(long frame, double[] samples, double[] into) {
    long start = frame * grid.hop();
    int from = (int) Math.max(0, -start);
    int to = (int) Math.min(grid.length(), segment.sideFrames() - start);
    long offset = start - segment.firstFrame();
    if (offset + from < 0 || offset + to > segment.length()) {
      throw new IllegalArgumentException(
          "frame "
              + frame
              + " reaches beyond the context of the segment at "
              + segment.segmentStart()
              + ": cut the side as the stage's segmentation says");
    }
    Arrays.fill(into, 0, from, 0.0);
    Arrays.fill(into, to, into.length, 0.0);
    for (int i = from; i < to; i++) {
      into[i] = window[i] * samples[(int) (offset + i)];
    }
  }

  /** Frames that hang over an end of the side are no evidence of the level. */
  private double level(long frame) {
    int reach = blocks.levelReach();
    long whole = Math.floorDiv(segment.sideFrames() - grid.length(), (long) grid.hop());
    long low = Math.max(0, frame - reach);
    long high = Math.min(whole, frame + reach);
    if (low > high) {
      return 1.0;
    }
    Arrays.fill(smoothed, 0.0);
    double total = 0;
    for (long f = low; f <= high; f++) {
      double w = trackerWeights[(int) Math.abs(f - frame)];
      double[] s = statistics[(int) (f & mask)];
      for (int b = 0; b < smoothed.length; b++) {
        smoothed[b] += w * s[b];
      }
      total += w;
    }
    for (int b = 0; b < smoothed.length; b++) {
      smoothed[b] /= total;
    }
    return tracker.level(smoothed);
  }
}
