package org.groovemend.plays;

import java.util.Arrays;
import org.groovemend.signal.robust.Median;

/**
 * Blanks, in both of two plays that lie over each other nearly, what stands far out of the one
 * alone: a click of one play tells a delay of its own, and in a short passage it may be louder than
 * the treble of the music. As both are multiplied by the same window, what they share keeps its
 * delay.
 */
final class UnsharedBursts {
  /**
   * Steps of the difference, over their median, from which on it is no noise: 6.7 standard
   * deviations of normal noise.
   */
  private static final double OUT = 10;

  /** Where more than this share of a stretch stands out, the plays are otherwise unlike. */
  private static final double MOST_SHARE = 0.3;

  private static final double BLANK_SECONDS = 0.4e-3;
  private static final double RAMP_SECONDS = 0.7e-3;

  private final int blank;
  private final int ramp;
  private final int[] distance;
  private final double[] steps;
  private final double[] sorted;

  /**
   * @param rate sample rate, hertz
   * @param most samples of one call
   * @param stretch samples over which the plays have one gain and the difference one level
   */
  UnsharedBursts(int rate, int most, int stretch) {
    blank = (int) Math.ceil(BLANK_SECONDS * rate);
    ramp = (int) Math.ceil(RAMP_SECONDS * rate);
    distance = new int[most];
    steps = new double[stretch];
    sorted = new double[stretch];
  }

  /** Blanks the first samples of both. */
  void take(double[] x, double[] y, int count) {
    int far = blank + ramp;
    Arrays.fill(distance, 0, count, far);
    boolean some = false;
    for (int at = 0; at + steps.length <= count; at += steps.length) {
      some |= mark(x, y, at);
    }
    if (!some) {
      return;
    }
    for (int i = 1; i < count; i++) {
      distance[i] = Math.min(distance[i], distance[i - 1] + 1);
    }
    for (int i = count - 2; i >= 0; i--) {
      distance[i] = Math.min(distance[i], distance[i + 1] + 1);
    }
    for (int i = 0; i < count; i++) {
      if (distance[i] < far) {
        double in = Math.max(0, distance[i] - blank) / (double) ramp;
        double weight = 0.5 - 0.5 * StrictMath.cos(Math.PI * in);
        x[i] *= weight;
        y[i] *= weight;
      }
    }
  }

  private boolean mark(double[] x, double[] y, int at) {
    int n = steps.length;
    double both = 0;
    double second = 0;
    for (int i = at; i < at + n; i++) {
      both += x[i] * y[i];
      second += y[i] * y[i];
    }
    double gain = second > 0 ? both / second : 0;
    double last = x[at] - gain * y[at];
    for (int i = 0; i < n; i++) {
      double now = x[at + i] - gain * y[at + i];
      steps[i] = Math.abs(now - last);
      last = now;
    }
    System.arraycopy(steps, 0, sorted, 0, n);
    double limit = OUT * Median.of(sorted, 0, n);
    int out = 0;
    for (double step : steps) {
      out += step > limit ? 1 : 0;
    }
    if (out == 0 || out > MOST_SHARE * n) {
      return false;
    }
    for (int i = 0; i < n; i++) {
      if (steps[i] > limit) {
        distance[at + i] = 0;
      }
    }
    return true;
  }
}
