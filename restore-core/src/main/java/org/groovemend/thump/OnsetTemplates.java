package org.groovemend.thump;

import java.util.ArrayList;
import java.util.List;

/**
 * Rings that are tried everywhere, held at every {@link ThumpGeometry#HOP}th instant and thought
 * interpolated between. Immutable; shared by threads.
 */
final class OnsetTemplates {
  private static final int HOP = ThumpGeometry.HOP;

  /** Held samples to either side that an interpolated one depends on. */
  private static final int REACH = 3;

  /** Half length of the interpolation, in instants. */
  static final int HALF = REACH * HOP - 1;

  private static final double LONGEST_SECONDS = 0.3;
  private static final double DECAYS = 5;

  private final double[][] cos;
  private final double[][] sin;
  private final RingPower[] power;
  private final double[] kernel = new double[2 * HALF + 1];

  OnsetTemplates(ThumpGeometry g) {
    for (int n = -HALF; n <= HALF; n++) {
      double u = Math.PI * n / HOP;
      double sinc = n == 0 ? 1 : StrictMath.sin(u) / u;
      kernel[n + HALF] = sinc * (0.5 + 0.5 * StrictMath.cos(u / REACH));
    }
    List<ThumpShape> shapes = new ArrayList<>();
    for (double start : new double[] {40, 75, 130}) {
      for (double decay : new double[] {0.03, 0.08}) {
        shapes.add(new ThumpShape(start, start / 4, 0.12, decay, 0));
        shapes.add(new ThumpShape(start, start * 0.8, 0.1, decay, 0));
      }
    }
    cos = new double[shapes.size()][];
    sin = new double[shapes.size()][];
    power = new RingPower[shapes.size()];
    for (int s = 0; s < cos.length; s++) {
      double seconds = Math.min(LONGEST_SECONDS, DECAYS * shapes.get(s).decaySeconds());
      // a multiple of four, as many as the inner loop takes at once
      int taps = (g.instants(seconds) / HOP + 3) / 4 * 4;
      cos[s] = new double[taps];
      sin[s] = new double[taps];
      shapes.get(s).write(0, HOP / g.perSecond(), 0.001, taps, cos[s], sin[s]);
      double[] fineCos = interpolated(cos[s]);
      double[] fineSin = interpolated(sin[s]);
      power[s] = new RingPower(fineCos, fineSin, fineCos.length);
    }
  }

  private double[] interpolated(double[] held) {
    double[] fine = new double[held.length * HOP + 2 * HALF];
    for (int m = 0; m < held.length; m++) {
      for (int n = 0; n < kernel.length; n++) {
        fine[m * HOP + n] += held[m] * kernel[n];
      }
    }
    return fine;
  }

  int size() {
    return cos.length;
  }

  /** Held samples of the longest. */
  int longest() {
    int most = 0;
    for (double[] c : cos) {
      most = Math.max(most, c.length);
    }
    return most;
  }

  /** Every {@code HOP}th instant of {@code x} from {@code at} on, through the interpolation. */
  void hold(double[] x, int at, int count, double[] out) {
    for (int i = 0; i < count; i++) {
      out[i] = PlaceData.dot(kernel, 0, x, at + i * HOP - HALF, kernel.length);
    }
  }

  /**
   * Adds to each score the drop that template {@code s} brings when it begins there.
   *
   * @param filter correlation of the whitening filter, as {@link MusicModel#power} gives it
   * @param held whitened data filtered backwards, then held; {@code count + longest()} values
   * @param p work, at least {@code count} long, like {@code q}
   */
  void score(
      int s,
      double[] filter,
      double[] held,
      int count,
      double[] p,
      double[] q,
      double[] weights,
      double[] scores) {
    if (!power[s].weights(filter, weights)) {
      return;
    }
    correlate(cos[s], held, count, p);
    correlate(sin[s], held, count, q);
    double pp = weights[0];
    double pq = weights[1];
    double qq = weights[2];
    for (int i = 0; i < count; i++) {
      scores[i] += p[i] * (pp * p[i] + pq * q[i]) + qq * q[i] * q[i];
    }
  }

  private static void correlate(double[] taps, double[] x, int count, double[] out) {
    java.util.Arrays.fill(out, 0, count, 0);
    for (int m = 0; m < taps.length; m += 4) {
      add(taps[m], taps[m + 1], taps[m + 2], taps[m + 3], x, m, count, out);
    }
  }

  private static void add(
      double a, double b, double c, double d, double[] x, int m, int count, double[] out) {
    for (int i = 0; i < count; i++) {
      out[i] += a * x[i + m] + b * x[i + m + 1] + (c * x[i + m + 2] + d * x[i + m + 3]);
    }
  }
}
