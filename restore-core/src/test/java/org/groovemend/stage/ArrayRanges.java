package org.groovemend.stage;

import java.io.IOException;
import java.util.function.IntToDoubleFunction;
import org.groovemend.audio.AudioFormat;

/** A side in memory as the samples are, for tests that need no words. */
public record ArrayRanges(AudioFormat format, double[][] samples) implements RangeReader {

  /** The side as 24-bit PCM, one array a channel. */
  public static ArrayRanges of(int rate, double[][] samples) {
    return new ArrayRanges(AudioFormat.pcm(rate, samples.length, 24), samples);
  }

  /** One channel of 64-bit floats by formula. */
  public static ArrayRanges of(int rate, int frames, IntToDoubleFunction value) {
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = value.applyAsDouble(i);
    }
    return new ArrayRanges(AudioFormat.ieeeFloat(rate, 1, 64), new double[][] {x});
  }

  /** All of a side. */
  public static double[][] all(RangeReader side) throws IOException {
    double[][] out = new double[side.format().channels()][(int) side.frames()];
    side.read(0, out[0].length, out);
    return out;
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
