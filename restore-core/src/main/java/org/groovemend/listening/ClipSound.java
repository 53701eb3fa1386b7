package org.groovemend.listening;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;

/** Reads a passage at a rate that loudspeakers can use. */
public final class ClipSound {

  /** Rates of less than twice this are kept. */
  private static final int ENOUGH_HZ = 44_100;

  private static final int BLOCK_FRAMES = 1 << 13;

  private ClipSound() {}

  /** The low-pass for a side: every sample is kept below 88.2 kHz. */
  public static Decimator decimator(int sampleRateHz) {
    return new Decimator(Math.max(1, sampleRateHz / ENOUGH_HZ));
  }

  /**
   * Reads a passage; what lies outside the side is silence.
   *
   * @param startFrame within the side
   * @param frames of the side, not of the result
   * @return {@code [channel][frame]}, one frame for every {@code factor} frames begun
   */
  public static double[][] read(WordSource side, long startFrame, long frames, Decimator lowPass)
      throws IOException {
    AudioFormat format = side.format();
    int factor = lowPass.factor();
    int count = (int) ((frames + factor - 1) / factor);
    double[][] out = new double[format.channels()][count];
    int room = (BLOCK_FRAMES - 1) * factor + 2 * lowPass.reach() + 1;
    long[][] words = new long[format.channels()][room];
    double[] samples = new double[room];
    double[] block = new double[BLOCK_FRAMES];
    for (int at = 0; at < count; at += BLOCK_FRAMES) {
      int n = Math.min(BLOCK_FRAMES, count - at);
      long first = startFrame + (long) at * factor - lowPass.reach();
      int needed = (n - 1) * factor + 2 * lowPass.reach() + 1;
      int skip = (int) Math.max(0, -first);
      int there = (int) Math.min(needed, side.frames() - first) - skip;
      side.readWords(first + skip, there, words, 0);
      for (int c = 0; c < out.length; c++) {
        Arrays.fill(samples, 0, skip, 0);
        Words.toDoubles(words[c], 0, samples, skip, there, format);
        Arrays.fill(samples, skip + there, needed, 0);
        lowPass.apply(samples, block, n);
        System.arraycopy(block, 0, out[c], at, n);
      }
    }
    return out;
  }
}
