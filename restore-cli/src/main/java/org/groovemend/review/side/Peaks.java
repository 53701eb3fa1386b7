package org.groovemend.review.side;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;

/**
 * Smallest and largest samples of the side before, after and of what was taken away, in bins of
 * equal length, at most {@value #MOST_BINS} of them whatever the length of the side (some 6 MB for
 * two channels). Filled from the front by one thread, read by others.
 */
final class Peaks {

  static final int MOST_BINS = 1 << 17;

  /** Shorter bins are quicker read from the files. */
  private static final int SMALLEST_LEVEL = 6;

  /** Before, after, taken away. */
  static final int SIGNALS = 3;

  private final int channels;
  private final long frames;
  private final int level;
  private final int bins;
  private final float[][] min;
  private final float[][] max;
  private volatile long done;

  Peaks(int channels, long frames) {
    this.channels = channels;
    this.frames = frames;
    int fits = SMALLEST_LEVEL;
    while ((frames - 1 >> fits) >= MOST_BINS) {
      fits++;
    }
    level = fits;
    bins = (int) ((frames - 1 >> level) + 1);
    min = new float[channels * SIGNALS][bins];
    max = new float[channels * SIGNALS][bins];
    for (int i = 0; i < min.length; i++) {
      Arrays.fill(min[i], Float.POSITIVE_INFINITY);
      Arrays.fill(max[i], Float.NEGATIVE_INFINITY);
    }
  }

  /** A bin has 2^level frames. */
  int level() {
    return level;
  }

  /** Frames that are in. */
  long done() {
    return done;
  }

  /** The next frames, {@code [channel][0, count)}. */
  void add(double[][] before, double[][] after, int count) {
    long first = done;
    for (int c = 0; c < channels; c++) {
      double[] b = before[c];
      double[] a = after[c];
      int row = c * SIGNALS;
      for (int i = 0; i < count; i++) {
        int bin = (int) (first + i >> level);
        put(row, bin, (float) b[i]);
        put(row + 1, bin, (float) a[i]);
        put(row + 2, bin, (float) (b[i] - a[i]));
      }
    }
    done = first + count;
  }

  private void put(int row, int bin, float value) {
    if (value < min[row][bin]) {
      min[row][bin] = value;
    }
    if (value > max[row][bin]) {
      max[row][bin] = value;
    }
  }

  /**
   * Bins of a tile, see {@link WaveTiles}; NaN where nothing is known yet.
   *
   * @param wanted 2^wanted frames a bin, not less than {@link #level()}
   */
  byte[] tile(int wanted, long firstBin, int count) {
    ByteBuffer out = buffer(channels, count);
    int each = wanted - level;
    long known = done >> level;
    for (int row = 0; row < min.length; row++) {
      for (int i = 0; i < count; i++) {
        long from = firstBin + i << each;
        long to = Math.min(firstBin + i + 1 << each, bins);
        // the last bin of the side may be a short one
        boolean there = from < to && (to <= known || done == frames);
        float low = Float.POSITIVE_INFINITY;
        float high = Float.NEGATIVE_INFINITY;
        for (long bin = from; there && bin < to; bin++) {
          low = Math.min(low, min[row][(int) bin]);
          high = Math.max(high, max[row][(int) bin]);
        }
        out.putFloat(there ? low : Float.NaN).putFloat(there ? high : Float.NaN);
      }
    }
    return out.array();
  }

  static ByteBuffer buffer(int channels, int count) {
    return ByteBuffer.allocate(channels * SIGNALS * count * 2 * Float.BYTES)
        .order(ByteOrder.LITTLE_ENDIAN);
  }
}
