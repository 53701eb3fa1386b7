package org.groovemend.stage;

import org.groovemend.audio.AudioFormat;

/** A side in memory as the samples are, for tests that need no words. */
public record ArrayRanges(AudioFormat format, double[][] samples) implements RangeReader {

  /** The side as 24-bit PCM, one array a channel. */
  public static ArrayRanges of(int rate, double[][] samples) {
    return new ArrayRanges(AudioFormat.pcm(rate, samples.length, 24), samples);
  }

  @Override
  public long frames() {
    return samples[0].length;
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) {
    for (int c = 0; c < samples.length; c++) {
      System.arraycopy(samples[c], (int) firstFrame, into[c], 0, count);
    }
  }
}
