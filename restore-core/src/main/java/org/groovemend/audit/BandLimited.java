package org.groovemend.audit;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.signal.window.KaiserLowPass;
import org.groovemend.stage.RangeReader;

/**
 * A side without the end of its band, by a gentle filter of few taps, so that a click stays short.
 * Not for several threads at once.
 */
final class BandLimited implements RangeReader {
  private static final double STOP_DB = 100;

  /** Of the lower half rate; what {@link org.groovemend.resample.Resampled} keeps is 0.907. */
  private static final double STOP_SHARE = 0.9;

  private static final double PASS_SHARE = 0.6;

  private final Silent side;
  private final double[] taps;
  private final int half;
  private double[][] x = new double[0][0];

  /**
   * @param lower rate that limits the band, share of the side's rate
   */
  BandLimited(RangeReader side, double lower) {
    this.side = new Silent(side);
    double edge = 0.5 * lower;
    half = KaiserLowPass.half(STOP_DB, (STOP_SHARE - PASS_SHARE) * edge);
    taps = KaiserLowPass.design(half, 0.5 * (STOP_SHARE + PASS_SHARE) * edge, STOP_DB);
  }

  @Override
  public AudioFormat format() {
    return side.side().format();
  }

  @Override
  public long frames() {
    return side.side().frames();
  }

  @Override
  public void read(long first, int count, double[][] into) throws IOException {
    int wide = count + 2 * half;
    if (x.length != into.length || x[0].length < wide) {
      x = new double[into.length][wide];
    }
    side.read(first - half, wide, x, 0);
    for (int c = 0; c < into.length; c++) {
      double[] in = x[c];
      for (int i = 0; i < count; i++) {
        double sum = taps[half] * in[i + half];
        for (int k = 1; k <= half; k++) {
          sum += taps[half + k] * (in[i + half + k] + in[i + half - k]);
        }
        into[c][i] = sum;
      }
    }
  }
}
