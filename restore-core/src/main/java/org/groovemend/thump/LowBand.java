package org.groovemend.thump;

import org.groovemend.signal.special.Bessel;
import org.groovemend.signal.window.WindowedSinc;
import org.groovemend.stage.SegmentWindow;

/**
 * The low band of a window, sampled at the side's own instants. Beyond the side it is silent. A
 * short symmetric filter leaves every {@code thinning}th frame, a long one of these every instant;
 * what folds back falls above 400 Hz. One instance per thread.
 */
final class LowBand {
  private static final double CUTOFF_HZ = 700;
  private static final double KAISER_BETA = 5;
  private static final double FIRST_KAISER_BETA = 6;

  private final ThumpGeometry g;
  private final double[] first;
  private final double[] second;
  private double[] thinned = new double[0];
  private double[][] samples = new double[0][0];
  private long begin;
  private int length;

  LowBand(ThumpGeometry g) {
    this.g = g;
    int f = g.thinning();
    first = lowPass(g.firstHalf(), 0.5 / f, FIRST_KAISER_BETA);
    second = lowPass(g.secondHalf(), CUTOFF_HZ * f / g.rate(), KAISER_BETA);
  }

  /** A sinc under a Kaiser window; the cutoff is a share of the sampling rate. */
  private static double[] lowPass(int half, double cutoff, double beta) {
    double[] window = new double[2 * half + 1];
    for (int k = -half; k <= half; k++) {
      double u = (double) k / Math.max(1, half);
      window[k + half] = Bessel.seriesI0(beta * Math.sqrt(Math.max(0, 1 - u * u)));
    }
    return WindowedSinc.lowPass(window, cutoff);
  }

  void load(SegmentWindow w) {
    begin = g.firstInstant(w);
    length = g.instantsOf(w);
    if (samples.length != w.channels() || (length > 0 && samples[0].length < length)) {
      samples = new double[w.channels()][length];
    }
    int f = g.thinning();
    int hop = g.step() / f;
    int count = length > 0 ? (length - 1) * hop + second.length : 0;
    if (thinned.length < count) {
      thinned = new double[count];
    }
    int start = (int) (begin * g.step() - w.firstFrame()) - g.secondHalf() * f - g.firstHalf();
    for (int c = 0; c < w.channels(); c++) {
      double[] x = w.samples()[c];
      for (int j = 0; j < count; j++) {
        int at = start + j * f;
        int from = Math.max(0, -at);
        int to = Math.min(first.length, w.length() - at);
        thinned[j] = to > from ? PlaceData.dot(first, from, x, at + from, to - from) : 0;
      }
      for (int i = 0; i < length; i++) {
        samples[c][i] = PlaceData.dot(second, 0, thinned, i * hop, second.length);
      }
    }
  }

  int channels() {
    return samples.length;
  }

  /** Instant of index 0. */
  long first() {
    return begin;
  }

  int length() {
    return length;
  }

  double[] channel(int c) {
    return samples[c];
  }
}
