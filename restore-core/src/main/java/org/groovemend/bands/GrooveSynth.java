package org.groovemend.bands;

import java.io.IOException;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.RangeReader;

/**
 * Goes on with the noise of the groove: Gaussian noise of the spectrum of a stretch of bare groove,
 * on both walls and with what they have in common, the same for the same seed.
 *
 * <p>Sine-windowed frames of random lines are added with half overlap, so the level is even.
 */
public final class GrooveSynth {

  private static final double FRAME_SECONDS = 0.0464;
  private static final int MOST_FRAMES = 200;

  private final int size;
  private final int channels;
  private final double[] window;
  private final RealFft fft;
  private final double[] left;
  private final double[] across;
  private final double[] crossRe;
  private final double[] crossIm;
  private final SplittableRandom chance;
  private final double[][] overlap;
  private final double[][] frame;
  private int used;

  /**
   * Learns from the stretch {@code [from, to)}, blocks that stand out left aside.
   *
   * @throws IllegalArgumentException if it is shorter than a tenth of a second or so
   */
  public GrooveSynth(RangeReader side, long from, long to, long seed) throws IOException {
    int n = 64;
    while (n * Math.sqrt(2) < FRAME_SECONDS * side.format().sampleRateHz()) {
      n *= 2;
    }
    this.size = n;
    this.channels = side.format().channels();
    this.window = WindowShape.SQRT_HANN.periodic(n);
    this.fft = new RealFft(n);
    this.left = new double[n / 2 + 1];
    this.across = new double[n / 2 + 1];
    this.crossRe = new double[n / 2 + 1];
    this.crossIm = new double[n / 2 + 1];
    this.chance = new SplittableRandom(seed);
    this.overlap = new double[channels][n];
    this.frame = new double[channels][n];
    learn(side, from, to);
    this.used = n / 2;
    next();
    this.used = n / 2;
  }

  private void learn(RangeReader side, long from, long to) throws IOException {
    int blocks = (int) Math.min(MOST_FRAMES, 2 * (to - from) / size - 1);
    if (blocks < 3) {
      throw new IllegalArgumentException("a stretch too short to tell the groove noise");
    }
    double[] power = new double[blocks];
    for (int pass = 0; pass < 2; pass++) {
      double[] sorted = power.clone();
      Arrays.sort(sorted);
      double limit = 2 * sorted[blocks / 2];
      int kept = 0;
      for (int b = 0; b < blocks; b++) {
        if (pass == 1 && power[b] > limit) {
          continue;
        }
        side.read(from + (long) b * (size / 2), size, frame);
        for (double[] x : frame) {
          for (int i = 0; i < size; i++) {
            power[b] += pass == 0 ? x[i] * x[i] : 0;
            x[i] *= window[i];
          }
        }
        if (pass == 1) {
          kept++;
          add();
        }
      }
      for (int k = 0; k < left.length && pass == 1; k++) {
        left[k] /= kept;
        across[k] /= kept;
        crossRe[k] /= kept;
        crossIm[k] /= kept;
      }
    }
  }

  private void add() {
    for (double[] x : frame) {
      fft.forward(x);
    }
    double[] l = frame[0];
    double[] r = frame[channels - 1];
    for (int k = 1; k < size / 2; k++) {
      left[k] += l[2 * k] * l[2 * k] + l[2 * k + 1] * l[2 * k + 1];
      across[k] += r[2 * k] * r[2 * k] + r[2 * k + 1] * r[2 * k + 1];
      crossRe[k] += r[2 * k] * l[2 * k] + r[2 * k + 1] * l[2 * k + 1];
      crossIm[k] += r[2 * k + 1] * l[2 * k] - r[2 * k] * l[2 * k + 1];
    }
  }

  /** The next samples, in place of what stands in {@code into[channel][offset...]}. */
  public void fill(double[][] into, int offset, int count) {
    for (int done = 0; done < count; ) {
      if (used == size / 2) {
        next();
      }
      int n = Math.min(count - done, size / 2 - used);
      for (int c = 0; c < channels; c++) {
        System.arraycopy(overlap[c], used, into[c], offset + done, n);
      }
      used += n;
      done += n;
    }
  }

  private void next() {
    for (double[] x : frame) {
      Arrays.fill(x, 0);
    }
    for (int k = 1; k < size / 2; k++) {
      double a = Math.sqrt(left[k] / 2);
      double re = chance.nextGaussian();
      double im = chance.nextGaussian();
      frame[0][2 * k] = a * re;
      frame[0][2 * k + 1] = a * im;
      if (channels == 2) {
        // the right wall: what it has in common with the left, and what is its own
        double bRe = left[k] > 0 ? crossRe[k] / Math.sqrt(2 * left[k]) : 0;
        double bIm = left[k] > 0 ? crossIm[k] / Math.sqrt(2 * left[k]) : 0;
        double own = Math.sqrt(Math.max(0, across[k] / 2 - bRe * bRe - bIm * bIm));
        frame[1][2 * k] = bRe * re - bIm * im + own * chance.nextGaussian();
        frame[1][2 * k + 1] = bRe * im + bIm * re + own * chance.nextGaussian();
      }
    }
    int half = size / 2;
    for (int c = 0; c < channels; c++) {
      fft.inverse(frame[c]);
      System.arraycopy(overlap[c], half, overlap[c], 0, half);
      for (int i = 0; i < size; i++) {
        double y = frame[c][i] * window[i] * SCALE;
        overlap[c][i] = i < half ? overlap[c][i] + y : y;
      }
    }
    used = 0;
  }

  /** The frames learned from had the power of the window, a half; so has each frame made. */
  private static final double SCALE = Math.sqrt(2);
}
