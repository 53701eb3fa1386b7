package org.groovemend.thump;

import org.groovemend.stage.SegmentWindow;

/** How much louder it gets above the low band where a thump begins: drums have partials there. */
final class Brightness {
  private static final double SKIPPED = 0.003;
  private static final double LISTENED = 0.02;

  private final int mean;
  private final int skipped;
  private final int listened;
  private final ThumpGeometry g;
  private final double[] ring;
  private final double[] work;

  Brightness(ThumpGeometry g) {
    this.g = g;
    mean = Math.max(1, (int) Math.round(0.001 * g.rate()));
    skipped = (int) (SKIPPED * g.rate());
    listened = (int) (LISTENED * g.rate());
    ring = new double[skipped + listened + mean + 1];
    work = new double[ring.length];
  }

  /**
   * Level from 3 to 20 ms after the onset against that from 20 to 3 ms before, the ring taken out,
   * in dB, all channels together. A moving mean over 2 ms is taken off, which leaves what lies
   * above some 400 Hz.
   */
  double rise(SegmentWindow w, Thump t) {
    double before = 0;
    double after = 0;
    int onset = (int) (t.onsetFrame(g) - w.firstFrame());
    for (int c = 0; c < w.channels(); c++) {
      t.write(g, c, ring.length, ring, work);
      before += energy(w, c, onset, onset - listened, onset - skipped);
      after += energy(w, c, onset, onset + skipped, onset + listened);
    }
    if (!(after > 0)) {
      return 0;
    }
    return 10 * StrictMath.log10(after / Math.max(before, 1e-12 * after));
  }

  /** Amplitude of the ring over the root mean square of half a second around its onset, in dB. */
  double level(SegmentWindow w, Thump t) {
    int onset = (int) (t.onsetFrame(g) - w.firstFrame());
    int from = Math.max(0, onset - g.rate() / 4);
    int to = Math.min(w.length(), onset + g.rate() / 4);
    double most = 0;
    double energy = 0;
    for (int c = 0; c < w.channels(); c++) {
      most = Math.max(most, t.amplitude(c));
      double own = 0;
      for (int n = from; n < to; n++) {
        own += w.samples()[c][n] * w.samples()[c][n];
      }
      energy = Math.max(energy, own);
    }
    double mean = energy / Math.max(1, to - from);
    return mean > 0 ? 10 * StrictMath.log10(most * most / mean) : 0;
  }

  private double energy(SegmentWindow w, int c, int onset, int from, int to) {
    int lo = Math.max(0, from - mean);
    int hi = Math.min(w.length(), to + mean + 1);
    if (hi - lo <= 2 * mean + 1) {
      return 0;
    }
    double[] x = w.samples()[c];
    double sum = 0;
    double energy = 0;
    for (int n = lo; n < hi; n++) {
      sum += value(x, n, onset);
      if (n >= lo + 2 * mean) {
        double high = value(x, n - mean, onset) - sum / (2 * mean + 1);
        energy += high * high;
        sum -= value(x, n - 2 * mean, onset);
      }
    }
    return energy;
  }

  private double value(double[] x, int n, int onset) {
    return n >= onset && n - onset < ring.length ? x[n] - ring[n - onset] : x[n];
  }
}
