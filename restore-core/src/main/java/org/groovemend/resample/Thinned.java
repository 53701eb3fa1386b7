package org.groovemend.resample;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.signal.window.KaiserLowPass;
import org.groovemend.stage.RangeReader;

/**
 * Every n-th frame of a side behind a low-pass of linear phase (Kaiser window), for what is to be
 * heard low down only: frame i lies at frame {@code i * step} of the side, silence before and
 * behind. What lies between the pass band and half the new rate may be folded. Not for several
 * threads at once.
 */
public final class Thinned implements RangeReader {
  private final RangeReader side;
  private final int step;
  private final double[] taps;
  private final AudioFormat format;
  private double[][] near;

  /**
   * @param step frames of the side for one of these, 2 or more; divides the rate
   * @param passHertz what lies below is kept, below half the new rate
   * @param stopDb how far down is what would be folded into that; its flatness follows from it
   */
  public Thinned(RangeReader side, int step, double passHertz, double stopDb) {
    int rate = side.format().sampleRateHz();
    if (step < 2 || rate % step != 0) {
      throw new IllegalArgumentException("a step of " + step + " at " + rate + " Hz");
    }
    this.side = side;
    this.step = step;
    format = AudioFormat.ieeeFloat(rate / step, side.format().channels(), 64);
    double width = (rate / (double) step - 2 * passHertz) / rate;
    taps = KaiserLowPass.design(KaiserLowPass.half(stopDb, width), 0.5 / step, stopDb);
    near = new double[side.format().channels()][0];
  }

  @Override
  public AudioFormat format() {
    return format;
  }

  @Override
  public long frames() {
    return (side.frames() + step - 1) / step;
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) throws IOException {
    if (count == 0) {
      return;
    }
    int half = taps.length / 2;
    long from = firstFrame * step - half;
    int need = (count - 1) * step + taps.length;
    long begin = Math.max(0, from);
    int lead = (int) (begin - from);
    int got = (int) (Math.min(side.frames(), from + need) - begin);
    if (near[0].length < need) {
      near = new double[near.length][need];
    }
    side.read(begin, got, near);
    for (int c = 0; c < near.length; c++) {
      double[] x = near[c];
      System.arraycopy(x, 0, x, lead, got);
      java.util.Arrays.fill(x, 0, lead, 0);
      java.util.Arrays.fill(x, lead + got, need, 0);
      for (int i = 0; i < count; i++) {
        into[c][i] = folded(x, i * step + half, half);
      }
    }
  }

  /** Equal taps together; four sums, so that one product need not wait for the one before. */
  private double folded(double[] x, int middle, int half) {
    double a = taps[half] * x[middle];
    double b = 0;
    double c = 0;
    double d = 0;
    int k = 1;
    for (; k + 3 <= half; k += 4) {
      a += taps[half + k] * (x[middle - k] + x[middle + k]);
      b += taps[half + k + 1] * (x[middle - k - 1] + x[middle + k + 1]);
      c += taps[half + k + 2] * (x[middle - k - 2] + x[middle + k + 2]);
      d += taps[half + k + 3] * (x[middle - k - 3] + x[middle + k + 3]);
    }
    for (; k <= half; k++) {
      a += taps[half + k] * (x[middle - k] + x[middle + k]);
    }
    return (a + b) + (c + d);
  }
}
