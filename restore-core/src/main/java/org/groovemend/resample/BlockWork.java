package org.groovemend.resample;

import org.groovemend.signal.fft.RealFft;

/**
 * One block of input and the output frames that lie in it. Everything is allocated at the start;
 * one instance per block under work.
 */
final class BlockWork {
  private final BandLimit limit;
  private final Kernel kernel;
  private final RealFft forward;
  private final RealFft inverse;
  private final double[] spectrum;
  private final double[][] twice;
  private final double[] taps = new double[Kernel.TAPS];
  private final double[] one;
  private final double[] other;

  /** Input frames of the window, by channel, to be filled before {@link #run}. */
  final double[][] window;

  /** What comes out, by channel. */
  final double[][] output;

  private final long[] whole;
  private final double[] fraction;
  private long firstInput;
  private long firstOutput;
  private int count;

  BlockWork(BandLimit limit, Kernel kernel, int channels, int mostOutput) {
    this.limit = limit;
    this.kernel = kernel;
    forward = new RealFft(limit.size());
    inverse = new RealFft(2 * limit.size());
    spectrum = new double[limit.size()];
    twice = new double[channels][2 * limit.size()];
    window = new double[channels][limit.size()];
    output = new double[channels][mostOutput];
    whole = new long[mostOutput];
    fraction = new double[mostOutput];
    one = twice[0];
    other = twice[channels - 1];
  }

  /**
   * Says which output frames are wanted, before {@link #run}.
   *
   * @param input first input frame of the block
   */
  void ask(PositionMap map, long input, long output, int count) {
    firstInput = input;
    firstOutput = output;
    this.count = count;
    map.positions(output, count, whole, fraction);
  }

  long firstOutput() {
    return firstOutput;
  }

  int count() {
    return count;
  }

  /** Window to output. */
  void run() {
    for (int c = 0; c < window.length; c++) {
      System.arraycopy(window[c], 0, spectrum, 0, spectrum.length);
      forward.forward(spectrum);
      limit.apply(spectrum, twice[c]);
      inverse.inverse(twice[c]);
    }
    boolean stereo = window.length == 2;
    double[] out = output[0];
    double[] otherOut = output[output.length - 1];
    for (int i = 0; i < count; i++) {
      double part = 2 * fraction[i];
      int past = part >= 1 ? 1 : 0;
      int at = 2 * ((int) (whole[i] - firstInput) + limit.before()) + past + Kernel.first();
      kernel.taps(part - past, taps);
      if (stereo) {
        otherOut[i] = sum(other, at);
      }
      out[i] = sum(one, at);
    }
  }

  /** Four sums, so that one product need not wait for the one before. */
  private double sum(double[] x, int at) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int k = 0; k < Kernel.TAPS; k += 4) {
      a += taps[k] * x[at + k];
      b += taps[k + 1] * x[at + k + 1];
      c += taps[k + 2] * x[at + k + 2];
      d += taps[k + 3] * x[at + k + 3];
    }
    return (a + b) + (c + d);
  }
}
