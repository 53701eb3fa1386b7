package org.groovemend.audit;

import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.stage.RangeReader;

/** Words in memory, read as words and as samples. */
record Sound(AudioFormat format, long[][] words) implements WordSource, RangeReader {

  /**
   * Rounded to the format's steps; with dither of two uniform values where a generator is given.
   */
  static Sound of(AudioFormat format, double[][] x, Random dither) {
    long[][] words = new long[x.length][x[0].length];
    double full = Math.pow(2, format.significantBits() - 1);
    int shift = format.containerBits() - format.significantBits();
    for (int c = 0; c < x.length; c++) {
      for (int i = 0; i < x[c].length; i++) {
        if (format.coding() == SampleCoding.FLOAT) {
          words[c][i] = Words.floatWord(x[c][i], format);
          continue;
        }
        double v = x[c][i] * full;
        if (dither != null) {
          v += dither.nextDouble() - dither.nextDouble();
        }
        words[c][i] = (long) Math.max(-full, Math.min(full - 1, Math.rint(v))) << shift;
      }
    }
    return new Sound(format, words);
  }

  /** The samples, full scale 1.0. */
  double[][] samples() {
    double[][] x = new double[words.length][words[0].length];
    for (int c = 0; c < x.length; c++) {
      Words.toDoubles(words[c], 0, x[c], 0, x[c].length, format);
    }
    return x;
  }

  @Override
  public long frames() {
    return words[0].length;
  }

  @Override
  public void readWords(long first, int count, long[][] into, int offset) {
    for (int c = 0; c < words.length; c++) {
      System.arraycopy(words[c], (int) first, into[c], offset, count);
    }
  }

  @Override
  public void read(long first, int count, double[][] into) {
    for (int c = 0; c < words.length; c++) {
      Words.toDoubles(words[c], (int) first, into[c], 0, count, format);
    }
  }
}
