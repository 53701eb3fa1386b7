package org.groovemend.plays;

import java.io.IOException;
import org.groovemend.signal.delay.CrossSpectrum;
import org.groovemend.stage.RangeReader;

/** By how much each channel of an aligned play is to be amplified to match the reference. */
final class LevelMatch {
  private static final int PLACES = 96;
  private static final double LOW_HERTZ = 200;
  private static final double HIGH_HERTZ = 4000;

  private LevelMatch() {}

  /** Gains by channel, negative for a channel of opposite sense; 1 where there is nothing. */
  static double[] of(RangeReader reference, RangeReader aligned, double from, double to)
      throws IOException {
    int rate = reference.format().sampleRateHz();
    int length = FrameMix.length(rate);
    int channels = reference.format().channels();
    double[][] x = new double[channels][length];
    double[][] y = new double[channels][length];
    CrossSpectrum[] sums = new CrossSpectrum[channels];
    for (int c = 0; c < channels; c++) {
      sums[c] = new CrossSpectrum(length);
    }
    long first = (long) (from * rate);
    long room = (long) (to * rate) - length - first;
    for (int p = 0; p < PLACES && room >= 0; p++) {
      long at = first + p * room / PLACES;
      reference.read(at, length, x);
      aligned.read(at, length, y);
      for (int c = 0; c < channels; c++) {
        sums[c].add(x[c], y[c], 0);
      }
    }
    double[] gain = new double[channels];
    for (int c = 0; c < channels; c++) {
      double a = 0;
      double b = 0;
      double shared = 0;
      for (int k = (int) (LOW_HERTZ * length / rate) + 1;
          k < Math.min(length / 2, HIGH_HERTZ * length / rate);
          k++) {
        a += sums[c].first()[k];
        b += sums[c].second()[k];
        shared += sums[c].real()[k];
      }
      gain[c] = a > 0 && b > 0 ? Math.copySign(Math.sqrt(a / b), shared) : 1;
    }
    return gain;
  }
}
