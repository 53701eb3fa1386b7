package org.groovemend.resample;

import java.util.function.IntToDoubleFunction;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;

/** A side in memory, in doubles. */
public record ArraySide(AudioFormat format, double[][] samples) implements RangeReader {

  /** One channel by formula. */
  public static ArraySide of(int rate, int frames, IntToDoubleFunction value) {
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = value.applyAsDouble(i);
    }
    return new ArraySide(AudioFormat.ieeeFloat(rate, 1, 64), new double[][] {x});
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

  /** All of a side. */
  static double[][] all(RangeReader side) throws java.io.IOException {
    double[][] out = new double[side.format().channels()][(int) side.frames()];
    side.read(0, out[0].length, out);
    return out;
  }
}
