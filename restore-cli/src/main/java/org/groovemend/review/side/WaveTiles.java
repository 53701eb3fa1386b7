package org.groovemend.review.side;

import java.io.IOException;
import java.nio.ByteBuffer;
import org.groovemend.audio.Words;

/**
 * Waveforms in tiles of {@value #BINS} bins of 2^level frames each. Long bins come from the {@link
 * Peaks} of the whole side, short ones are read from the files.
 *
 * <p>A tile is float32, little end first: for each channel before, after, taken away; of each the
 * smallest and the largest sample of every bin in turn; NaN where there is nothing (yet).
 */
public final class WaveTiles {

  public static final int BINS = 512;

  /** 2^31 frames a bin: no side is longer than one tile of them. */
  public static final int HIGHEST_LEVEL = 31;

  private static final int BLOCK_FRAMES = 1 << 14;

  private final ReviewSide side;
  private final Peaks peaks;

  WaveTiles(ReviewSide side, Peaks peaks) {
    this.side = side;
    this.peaks = peaks;
  }

  /**
   * One tile.
   *
   * @throws IllegalArgumentException if there is no such tile
   */
  public byte[] tile(int level, long number) throws IOException {
    if (level < 0 || level > HIGHEST_LEVEL || number < 0 || number > side.frames() - 1 >> level) {
      throw new IllegalArgumentException("there is no tile " + number + " of level " + level);
    }
    long firstBin = number * BINS;
    if (firstBin > side.frames() - 1 >> level) {
      throw new IllegalArgumentException("there is no tile " + number + " of level " + level);
    }
    return level >= peaks.level() ? peaks.tile(level, firstBin, BINS) : read(level, firstBin);
  }

  private byte[] read(int level, long firstBin) throws IOException {
    int channels = side.format().channels();
    int rows = channels * Peaks.SIGNALS;
    float[][] low = new float[rows][BINS];
    float[][] high = new float[rows][BINS];
    long first = firstBin << level;
    long frames = Math.min((long) BINS << level, side.frames() - first);
    side.with(
        sides -> {
          long[][] before = new long[channels][BLOCK_FRAMES];
          long[][] after = new long[channels][BLOCK_FRAMES];
          for (long at = 0; at < frames; at += BLOCK_FRAMES) {
            int n = (int) Math.min(BLOCK_FRAMES, frames - at);
            sides.before().readWords(first + at, n, before, 0);
            sides.after().readWords(first + at, n, after, 0);
            for (int c = 0; c < channels; c++) {
              extremes(before[c], after[c], n, at, level, low, high, c * Peaks.SIGNALS);
            }
          }
          return null;
        });
    ByteBuffer out = Peaks.buffer(channels, BINS);
    int filled = (int) ((frames - 1 >> level) + 1);
    for (int row = 0; row < rows; row++) {
      for (int i = 0; i < BINS; i++) {
        out.putFloat(i < filled ? low[row][i] : Float.NaN);
        out.putFloat(i < filled ? high[row][i] : Float.NaN);
      }
    }
    return out.array();
  }

  private void extremes(
      long[] before,
      long[] after,
      int count,
      long at,
      int level,
      float[][] low,
      float[][] high,
      int row) {
    for (int i = 0; i < count; i++) {
      float b = (float) Words.toDouble(before[i], side.format());
      float a = (float) Words.toDouble(after[i], side.format());
      int bin = (int) (at + i >> level);
      boolean begins = (at + i & (1L << level) - 1) == 0;
      put(low[row], high[row], bin, b, begins);
      put(low[row + 1], high[row + 1], bin, a, begins);
      put(low[row + 2], high[row + 2], bin, b - a, begins);
    }
  }

  private static void put(float[] low, float[] high, int bin, float value, boolean begins) {
    low[bin] = begins ? value : Math.min(low[bin], value);
    high[bin] = begins ? value : Math.max(high[bin], value);
  }
}
