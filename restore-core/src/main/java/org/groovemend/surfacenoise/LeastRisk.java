package org.groovemend.surfacenoise;

import java.util.Arrays;

/**
 * Chooses between two estimates of the music by their expected squared error, without knowing the
 * music.
 *
 * <p>For Gaussian noise of known power the squared error of an estimate y(x) is expected to be |y -
 * x|² plus twice the noise power times its divergence, less the noise power itself (C. Stein,
 * Annals of Statistics 9(6), 1981; for the choice of spectral windows G. Yu, S. Mallat and E.
 * Bacry, IEEE Trans. Signal Processing 56(5), 2008, use it within blocks). The last term is common
 * to both. The difference scatters from line to line and is averaged over {@link #REACH} frames and
 * a few lines either way, more of them in the treble, where there are more than enough. Long frames
 * win in held notes, short ones at attacks and where pitch moves.
 */
final class LeastRisk {

  /** Frames either way over which the difference is averaged. */
  static final int REACH = 4;

  private static final int LINES = 2;
  private static final int RING = 16;
  private static final int WIDER_EVERY = 16;

  /** Differences of less than this share of the noise power mix the two. */
  private static final double MIXED_BELOW = 0.25;

  private final LocalNoise noise;
  private final LocalNoise noiseThen;
  private final double[][][] shorts;
  private final double[][][] longs;
  private final double[][] differences;
  private final double[] levels;
  private final long[] numbers;
  private final double[] frameWeights;
  private final double[] lineWeights;
  private final double[] row;
  private final double[] sums;
  private final double[] longFreedom;
  private final double[] share;

  /**
   * Makes a choice with buffers of its own.
   *
   * @param side noise along the side
   * @param grid of the short frames
   */
  LeastRisk(SideNoise side, FrameGrid grid) {
    int channels = side.channels();
    int frameLength = grid.length();
    int lines = grid.bins();
    this.noise = new LocalNoise(side, grid);
    this.noiseThen = new LocalNoise(side, grid);
    this.shorts = new double[channels][RING][frameLength];
    this.longs = new double[channels][RING][frameLength];
    this.differences = new double[RING][lines];
    this.levels = new double[RING];
    this.numbers = new long[RING];
    this.frameWeights = hann(REACH);
    this.lineWeights = hann(LINES);
    this.row = new double[lines];
    this.sums = new double[lines + 1];
    this.longFreedom = new double[lines];
    this.share = new double[lines];
  }

  private static double[] hann(int reach) {
    double[] w = new double[reach + 1];
    for (int i = 0; i <= reach; i++) {
      w[i] = 0.5 + 0.5 * StrictMath.cos(Math.PI * i / (reach + 1));
    }
    return w;
  }

  int channels() {
    return shorts.length;
  }

  void begin() {
    Arrays.fill(numbers, Long.MIN_VALUE);
  }

  /** Where the spectrum of the long frames' estimate goes. */
  double[] longSpectrum(int channel, long frame) {
    return longs[channel][slot(frame)];
  }

  /** Where the long frames' noise power times divergence goes. */
  double[] longFreedom() {
    return longFreedom;
  }

  /**
   * Takes the short frames' estimate, {@code gain} times {@code x}, and measures both against x.
   */
  void compare(int channel, long frame, double[] x, double[] gain) {
    double[] s = shorts[channel][slot(frame)];
    double[] l = longs[channel][slot(frame)];
    System.arraycopy(x, 0, s, 0, x.length);
    Spectra.scale(s, gain);
    if (channel == 0) {
      Arrays.fill(row, 0.0);
    }
    int last = row.length - 1;
    row[0] += square(s[0] - x[0]) - square(l[0] - x[0]);
    row[last] += square(s[1] - x[1]) - square(l[1] - x[1]);
    for (int k = 1; k < last; k++) {
      int i = 2 * k;
      row[k] +=
          square(s[i] - x[i])
              + square(s[i + 1] - x[i + 1])
              - square(l[i] - x[i])
              - square(l[i + 1] - x[i + 1]);
    }
  }

  private static double square(double v) {
    return v * v;
  }

  /** Ends a frame: adds what the divergences say and smooths over the lines. */
  void weigh(long frame, double[] divergence, double level) {
    int slot = slot(frame);
    noise.moveTo(frame);
    double[] power = noise.summed();
    for (int k = 0; k < row.length; k++) {
      row[k] += 2 * (level * power[k] * divergence[k] - longFreedom[k]);
    }
    double sum = 0;
    for (int k = 0; k < row.length; k++) {
      sum += row[k];
      sums[k + 1] = sum;
    }
    double[] into = differences[slot];
    for (int k = 0; k < row.length; k++) {
      int reach = LINES + k / WIDER_EVERY;
      int low = Math.max(0, k - reach);
      int high = Math.min(row.length, k + reach + 1);
      into[k] = (sums[high] - sums[low]) / (high - low);
    }
    levels[slot] = level;
    numbers[slot] = frame;
  }

  /** Finds the share of the short frames' estimate for each line of a frame. */
  void decide(long frame) {
    Arrays.fill(share, 0.0);
    double total = 0;
    for (long f = frame - REACH; f <= frame + REACH; f++) {
      int slot = slot(f);
      if (numbers[slot] == f) { // beyond the ends of the side there are none
        double w = frameWeights[(int) Math.abs(f - frame)];
        double[] d = differences[slot];
        for (int k = 0; k < share.length; k++) {
          share[k] += w * d[k];
        }
        total += w;
      }
    }
    noiseThen.moveTo(frame);
    double[] power = noiseThen.summed();
    double scale = total * MIXED_BELOW * levels[slot(frame)];
    for (int k = 0; k < share.length; k++) {
      double t = Math.max(-1, Math.min(1, share[k] / (scale * power[k])));
      share[k] = 0.5 - t * (0.75 - 0.25 * t * t);
    }
  }

  /** The spectrum decided on. */
  void spectrum(int channel, long frame, double[] into) {
    double[] s = shorts[channel][slot(frame)];
    double[] l = longs[channel][slot(frame)];
    int last = share.length - 1;
    into[0] = l[0] + share[0] * (s[0] - l[0]);
    into[1] = l[1] + share[last] * (s[1] - l[1]);
    for (int k = 1; k < last; k++) {
      int i = 2 * k;
      into[i] = l[i] + share[k] * (s[i] - l[i]);
      into[i + 1] = l[i + 1] + share[k] * (s[i + 1] - l[i + 1]);
    }
  }

  private static int slot(long frame) {
    return (int) (frame & (RING - 1));
  }
}
