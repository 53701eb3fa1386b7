package org.groovemend.plays;

import java.io.IOException;
import org.groovemend.signal.delay.CrossSpectrum;
import org.groovemend.stage.RangeReader;

/** By how much each channel of an aligned play is to be amplified to match the reference. */
final class LevelMatch {
  private static final int PLACES = 96;
  private static final double LOW_HERTZ = 200;
  private static final double HIGH_HERTZ = 4000;

  /** Exchanged channels leave at most this share of what channels in order leave unlike. */
  private static final double UNLIKE_SHARE = 0.5;

  /** Correlation by which exchanged channels must be more alike. */
  private static final double MORE_ALIKE = 0.01;

  private LevelMatch() {}

  /** Powers of two signals and what they share. */
  private record Shared(double first, double second, double both) {
    double likeness() {
      return first > 0 && second > 0 ? Math.abs(both) / Math.sqrt(first * second) : 0;
    }
  }

  /** Gains by channel, negative for a channel of opposite sense; 1 where there is nothing. */
  static double[] of(RangeReader reference, RangeReader aligned, double from, double to)
      throws IOException {
    Shared[] all = shared(reference, aligned, from, to);
    double[] gain = new double[all.length];
    for (int c = 0; c < all.length; c++) {
      Shared one = all[c];
      gain[c] =
          one.first > 0 && one.second > 0
              ? Math.copySign(Math.sqrt(one.first / one.second), one.both)
              : 1;
    }
    return gain;
  }

  /**
   * True if the play is plainly more like the reference with its channels exchanged. Channels that
   * are alike cannot tell, nor does it matter then.
   */
  static boolean exchanged(RangeReader reference, RangeReader aligned, double from, double to)
      throws IOException {
    if (reference.format().channels() != 2) {
      return false;
    }
    double inOrder = 0;
    for (Shared one : shared(reference, aligned, from, to)) {
      inOrder += one.likeness() / 2;
    }
    double crossed = 0;
    for (Shared one : shared(reference, new ExchangedChannels(aligned), from, to)) {
      crossed += one.likeness() / 2;
    }
    return 1 - crossed < UNLIKE_SHARE * (1 - inOrder) && crossed > inOrder + MORE_ALIKE;
  }

  private static Shared[] shared(RangeReader reference, RangeReader aligned, double from, double to)
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
    Shared[] all = new Shared[channels];
    for (int c = 0; c < channels; c++) {
      double a = 0;
      double b = 0;
      double both = 0;
      for (int k = (int) (LOW_HERTZ * length / rate) + 1;
          k < Math.min(length / 2, HIGH_HERTZ * length / rate);
          k++) {
        a += sums[c].first()[k];
        b += sums[c].second()[k];
        both += sums[c].real()[k];
      }
      all[c] = new Shared(a, b, both);
    }
    return all;
  }
}
