package org.groovemend.bands;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * How loud a side is in half-octave bands, cell by cell, small enough to be kept for a whole side:
 * one byte for each band, 34 bytes a cell of a stereo side, about 43 cells a second.
 *
 * <p>Two channels are heard as their half sum and half difference: most music moves the stylus
 * sideways, the noise of the groove does so in every direction. Any cutting into blocks gives the
 * same result. Allocates nothing after construction.
 */
final class CellLevels {

  /** Edges of the bands in hertz; half octaves. Those above 0.45 of the rate are left out. */
  private static final double[] EDGES_HZ = {
    50, 71, 100, 141, 200, 283, 400, 566, 800, 1131, 1600, 2263, 3200, 4525, 6400, 9051, 12800,
    16000
  };

  /** Step of a byte, and the level of byte 0: that or less. */
  private static final double STEP_DB = 0.5;

  private static final double LEAST_DB = -140;
  private static final double CELL_SECONDS = 0.0232;

  private final int channels;
  private final int hop;
  private final long frames;
  private final int[] edges;
  private final byte[][] level;
  private final boolean[] silent;
  private final double[][] pending;
  private final double[] window;
  private final double[] work;
  private final RealFft fft;
  private final double scale;
  private final double lineHz;
  private int filled;
  private int cells;

  /**
   * @param frames of the whole side
   */
  CellLevels(AudioFormat format, long frames) {
    int size = 64;
    while (size * Math.sqrt(2) < 2 * CELL_SECONDS * format.sampleRateHz()) {
      size *= 2;
    }
    this.channels = format.channels();
    this.hop = size / 2;
    this.frames = frames;
    this.lineHz = format.sampleRateHz() / (double) size;
    int[] e = new int[EDGES_HZ.length];
    int n = 0;
    for (double hz : EDGES_HZ) {
      if (hz < 0.45 * format.sampleRateHz()) {
        e[n] = (int) Math.round(hz / lineHz);
        if (n == 0 || e[n] > e[n - 1]) {
          n++;
        }
      }
    }
    this.edges = Arrays.copyOf(e, n);
    long most = Math.max(0, (frames - size) / hop + 1);
    if (most > Integer.MAX_VALUE - 8) {
      throw new IllegalArgumentException(frames + " frames are more than a side can have");
    }
    this.level = new byte[channels * (n - 1)][(int) most];
    this.silent = new boolean[(int) most];
    this.pending = new double[channels][size];
    this.window = WindowShape.HANN.periodic(size);
    this.work = new double[size];
    this.fft = new RealFft(size);
    double power = 0;
    for (double w : window) {
      power += w * w;
    }
    this.scale = 2 / (power * size);
  }

  /** The next {@code count} frames of {@code samples[channel]}, full scale 1.0; not changed. */
  void accept(double[][] samples, int count) {
    for (int done = 0; done < count; ) {
      int n = Math.min(count - done, 2 * hop - filled);
      for (int c = 0; c < channels; c++) {
        System.arraycopy(samples[c], done, pending[c], filled, n);
      }
      filled += n;
      done += n;
      if (filled == 2 * hop) {
        if (cells < silent.length) {
          measure();
          cells++;
        }
        for (double[] x : pending) {
          System.arraycopy(x, hop, x, 0, hop);
        }
        filled = hop;
      }
    }
  }

  private void measure() {
    boolean still = true;
    for (double[] x : pending) {
      for (int i = 1; i < x.length && still; i++) {
        still = x[i] == x[0];
      }
    }
    silent[cells] = still;
    for (int c = 0; c < channels; c++) {
      for (int i = 0; i < work.length; i++) {
        double x = pending[0][i];
        if (channels == 2) {
          x = 0.5 * (c == 0 ? x + pending[1][i] : x - pending[1][i]);
        }
        work[i] = x * window[i];
      }
      fft.forward(work);
      int bands = edges.length - 1;
      for (int b = 0; b < bands; b++) {
        double sum = 0;
        for (int k = edges[b]; k < edges[b + 1]; k++) {
          sum += work[2 * k] * work[2 * k] + work[2 * k + 1] * work[2 * k + 1];
        }
        double db = 10 * StrictMath.log10(Math.max(scale * sum, 1e-20));
        long steps = Math.round((db - LEAST_DB) / STEP_DB);
        level[c * bands + b][cells] = (byte) Math.max(0, Math.min(255, steps));
      }
    }
  }

  /**
   * Puts the median of five cells in place of each: a click is gone, a step stays where it is. For
   * a side that has been heard to its end.
   */
  void calm() {
    byte[] original = new byte[cells];
    int[] five = new int[5];
    for (byte[] row : level) {
      System.arraycopy(row, 0, original, 0, cells);
      for (int i = 2; i < cells - 2; i++) {
        for (int k = 0; k < 5; k++) {
          int v = original[i - 2 + k] & 0xff;
          int at = k;
          for (; at > 0 && five[at - 1] > v; at--) {
            five[at] = five[at - 1];
          }
          five[at] = v;
        }
        row[i] = (byte) five[2];
      }
    }
  }

  /** Complete cells heard so far. */
  int cells() {
    return cells;
  }

  /** Bands of all channels: first those of the sum, then those of the difference. */
  int rows() {
    return level.length;
  }

  /** Bands of one channel. */
  int bands() {
    return edges.length - 1;
  }

  /** Lines of the spectrum that a row adds up; the fewer, the more chance moves it. */
  int lines(int row) {
    int b = row % bands();
    return edges[b + 1] - edges[b];
  }

  /** Whether the row lies wholly at or above a frequency. */
  boolean above(int row, double hertz) {
    return edges[row % bands()] * lineHz >= 0.9 * hertz;
  }

  /** Mean square in a row, dB re that of a constant 1.0; -140 for that or less. */
  double level(int row, int cell) {
    return LEAST_DB + STEP_DB * (level[row][cell] & 0xff);
  }

  /** Whether all samples of the cell are the same: digital silence, no groove. */
  boolean silent(int cell) {
    return silent[cell];
  }

  int hop() {
    return hop;
  }

  /** Length of the side. */
  long frames() {
    return frames;
  }

  /** Middle frame of a cell. */
  long middle(int cell) {
    return (long) (cell + 1) * hop;
  }

  /** The cell whose middle is nearest to a frame. */
  int cellAt(long frame) {
    long cell = (frame + hop / 2) / hop - 1;
    return (int) Math.max(0, Math.min(cells - 1, cell));
  }
}
