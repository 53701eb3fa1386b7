package org.groovemend.thump;

import org.groovemend.stage.SegmentWindow;

/**
 * The low band of a window, sampled at the side's own instants. Beyond the side it is silent. The
 * filter is a sinc of 700 Hz under a Kaiser window, symmetric, hence without delay; what folds back
 * falls above 400 Hz.
 */
final class LowBand {
  private static final double CUTOFF_HZ = 700;
  private static final double KAISER_BETA = 5;

  private final ThumpGeometry g;
  private final double[] filter;
  private double[][] samples = new double[0][0];
  private long first;
  private int length;

  LowBand(ThumpGeometry g) {
    this.g = g;
    int n = g.half();
    filter = new double[2 * n + 1];
    double sum = 0;
    for (int k = -n; k <= n; k++) {
      double x = 2 * Math.PI * CUTOFF_HZ * k / g.rate();
      double u = (double) k / n;
      double sinc = k == 0 ? 1 : StrictMath.sin(x) / x;
      filter[k + n] = sinc * bessel(KAISER_BETA * Math.sqrt(Math.max(0, 1 - u * u)));
      sum += filter[k + n];
    }
    for (int k = 0; k < filter.length; k++) {
      filter[k] /= sum;
    }
  }

  /** Modified Bessel function of the first kind, order 0, by its power series. */
  private static double bessel(double x) {
    double term = 1;
    double sum = 1;
    for (int k = 1; term > 1e-17 * sum; k++) {
      term *= x * x / (4.0 * k * k);
      sum += term;
    }
    return sum;
  }

  void load(SegmentWindow w) {
    long lowest = w.firstFrame() == 0 ? 0 : w.firstFrame() + g.half();
    long end = w.firstFrame() + w.length();
    long highest = end == w.sideFrames() ? end - 1 : end - 1 - g.half();
    first = Math.floorDiv(lowest + g.step() - 1, g.step());
    length = (int) Math.max(0, Math.floorDiv(highest, g.step()) - first + 1);
    if (samples.length != w.channels() || (length > 0 && samples[0].length < length)) {
      samples = new double[w.channels()][length];
    }
    for (int c = 0; c < w.channels(); c++) {
      double[] x = w.samples()[c];
      for (int i = 0; i < length; i++) {
        int centre = (int) ((first + i) * g.step() - w.firstFrame());
        samples[c][i] = at(x, centre, w.length());
      }
    }
  }

  private double at(double[] x, int centre, int valid) {
    int n = g.half();
    int from = Math.max(-n, -centre);
    int to = Math.min(n, valid - 1 - centre);
    double sum = 0;
    for (int k = from; k <= to; k++) {
      sum += filter[k + n] * x[centre + k];
    }
    return sum;
  }

  int channels() {
    return samples.length;
  }

  /** Instant of index 0. */
  long first() {
    return first;
  }

  int length() {
    return length;
  }

  double[] channel(int c) {
    return samples[c];
  }
}
