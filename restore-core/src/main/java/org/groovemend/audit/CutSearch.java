package org.groovemend.audit;

import java.io.IOException;
import org.groovemend.stage.RangeReader;

/** Finds the frame at which one place of the original is left for another. */
final class CutSearch {

  /** More is not searched: the middle is taken. */
  private static final int MOST_FRAMES = 1 << 22;

  private final RangeReader derivative;
  private final Silent timeline;
  private final Pairing pairing;

  CutSearch(RangeReader timeline, RangeReader derivative, Pairing pairing) {
    this.timeline = new Silent(timeline);
    this.derivative = derivative;
    this.pairing = pairing;
  }

  /**
   * The frame from which on {@code before} no longer holds: that at which the squared differences,
   * {@code before} up to it and {@code after} from it on, are least. Frames put in are passed over.
   *
   * @param from first frame that may be it
   * @param to one past the last
   */
  long find(long from, long to, long before, long after) throws IOException {
    if (to - from < 2 || to - from > MOST_FRAMES) {
      return (from + to) / 2;
    }
    int n = (int) (to - from);
    double[] one = misfit(from, n, before);
    double[] other = misfit(from, n, after);
    int put = (int) Math.min(n, Math.max(0, before - after));
    double sum = 0;
    for (int i = put; i < n; i++) {
      sum += other[i];
    }
    double least = sum;
    int best = 0;
    for (int i = 0; i + put < n; i++) {
      sum += one[i] - other[i + put];
      if (sum < least) {
        least = sum;
        best = i + 1;
      }
    }
    return from + best;
  }

  private double[] misfit(long from, int n, long lag) throws IOException {
    double[][] d = new double[derivative.format().channels()][n];
    double[][] o = new double[timeline.channels()][n];
    double[] x = new double[n];
    double[] y = new double[n];
    derivative.read(from, n, d);
    timeline.read(from + lag, n, o, 0);
    Pairing.take(pairing.derivative(), d, n, y);
    Pairing.take(pairing.original(), o, n, x);
    double xy = 0;
    double xx = 0;
    for (int i = 0; i < n; i++) {
      xy += x[i] * y[i];
      xx += x[i] * x[i];
    }
    // the half that fits has half the power or more; its sign is what matters
    double gain = xx > 0 ? Math.signum(xy) * level(x, y) : 0;
    for (int i = 0; i < n; i++) {
      double e = y[i] - gain * x[i];
      x[i] = e * e;
    }
    return x;
  }

  private static double level(double[] x, double[] y) {
    double xx = 0;
    double yy = 0;
    for (int i = 0; i < x.length; i++) {
      xx += x[i] * x[i];
      yy += y[i] * y[i];
    }
    return xx > 0 ? Math.sqrt(yy / xx) : 0;
  }
}
