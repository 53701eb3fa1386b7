package org.groovemend.click;

import java.util.ArrayList;
import java.util.List;

/**
 * Click shapes for sides that show too few of their own: a bump in the groove wall, half a raised
 * cosine up and half down, read as velocity through a pickup coil against its load (second-order
 * low-pass at 15.9 kHz, Q 1.17: 400 mH, 250 pF, 47 kilohm; common practice, no source).
 *
 * <p>Eight of 40 to 400 microseconds, falling half again as slowly as they rise, each in its own
 * direction across the groove.
 */
final class StandardPulses {
  private static final double[] MICROSECONDS = {40, 60, 80, 110, 150, 210, 290, 400};
  private static final double FALL_OVER_RISE = 1.5;
  private static final double RESONANCE_HZ = 15_900;
  private static final double Q = 1.17;
  private static final int FINE = 16;
  private static final double RING_SECONDS = 0.00025;

  private StandardPulses() {}

  /**
   * @param lateral true if the channels are copies of each other, so that a pulse must be alike in
   *     both
   */
  static List<ClickPulse> of(int channels, int rate, boolean lateral) {
    List<ClickPulse> all = new ArrayList<>();
    for (int i = 0; i < MICROSECONDS.length; i++) {
      double[] shape = shape(MICROSECONDS[i] * 1e-6, rate);
      double direction = Math.PI * (i + 0.25) / MICROSECONDS.length;
      double[][] walls = new double[channels][shape.length];
      for (int c = 0; c < channels; c++) {
        double wall =
            channels == 1 || lateral
                ? 1
                : c == 0 ? StrictMath.cos(direction) : StrictMath.sin(direction);
        for (int n = 0; n < shape.length; n++) {
          walls[c][n] = wall * shape[n];
        }
      }
      all.add(new ClickPulse(walls));
    }
    return all;
  }

  /** Mean over each sample of the pickup's answer, computed in sixteenths. */
  private static double[] shape(double seconds, int rate) {
    double rise = seconds / (1 + FALL_OVER_RISE);
    double step = 1.0 / (rate * (double) FINE);
    double w = 2 * Math.PI * RESONANCE_HZ;
    int frames = (int) Math.ceil((seconds + RING_SECONDS) * rate);
    double[] out = new double[frames];
    double y = 0;
    double dy = 0;
    double largest = 0;
    for (int n = 0; n < frames; n++) {
      double sum = 0;
      for (int k = 0; k < FINE; k++) {
        double t = (n * FINE + k + 0.5) * step;
        double u = velocity(t, rise, seconds - rise);
        // semi-implicit Euler: stable here, its error is far below the spread of real clicks
        dy += step * (w * w * (u - y) - w / Q * dy);
        y += step * dy;
        sum += y;
      }
      out[n] = sum / FINE;
      largest = Math.max(largest, Math.abs(out[n]));
    }
    for (int n = 0; n < frames; n++) {
      out[n] /= largest;
    }
    return out;
  }

  private static double velocity(double t, double rise, double fall) {
    if (t >= rise + fall) {
      return 0;
    }
    return t < rise
        ? StrictMath.sin(Math.PI * t / rise) / rise
        : -StrictMath.sin(Math.PI * (t - rise) / fall) / fall;
  }
}
