package org.groovemend.audit;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;

/**
 * What the words of a side say by themselves.
 *
 * @param samplesSha256 digest of the samples
 * @param usedBits bits down to the lowest that is ever set; the container's for floats; 0 for
 *     silence
 * @param peaks largest size of a sample by channel, full scale 1.0
 */
public record WordCensus(String samplesSha256, int usedBits, double[] peaks) {
  private static final int BLOCK = 1 << 14;

  public WordCensus {
    peaks = peaks.clone();
  }

  /** Reads all words once. */
  public static WordCensus of(WordSource side, Watch watch) throws IOException {
    AudioFormat format = side.format();
    SampleDigest digest = new SampleDigest(format);
    long[][] words = new long[format.channels()][BLOCK];
    double[] x = new double[BLOCK];
    double[] peaks = new double[format.channels()];
    long set = 0;
    for (long first = 0; first < side.frames(); first += BLOCK) {
      int n = (int) Math.min(BLOCK, side.frames() - first);
      watch.at(first, side.frames());
      side.readWords(first, n, words, 0);
      digest.update(words, 0, n);
      for (int c = 0; c < words.length; c++) {
        Words.toDoubles(words[c], 0, x, 0, n, format);
        for (int i = 0; i < n; i++) {
          set |= words[c][i];
          peaks[c] = Math.max(peaks[c], Math.abs(x[i]));
        }
      }
    }
    int used =
        format.coding() == SampleCoding.FLOAT
            ? format.containerBits()
            : set == 0 ? 0 : format.containerBits() - Long.numberOfTrailingZeros(set);
    return new WordCensus(digest.hex(), used, peaks);
  }

  /** Smallest step of the words in use, full scale 1.0; 0 for floats. */
  double step(AudioFormat format) {
    return format.coding() == SampleCoding.FLOAT || usedBits == 0
        ? 0
        : 1.0 / (1L << (usedBits - 1));
  }
}
