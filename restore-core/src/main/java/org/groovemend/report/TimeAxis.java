package org.groovemend.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Round places along a side, with labels in the unit that suits its length.
 *
 * @param unit how to read the labels: {@code ms}, {@code s}, {@code min:s} or {@code h:min}
 * @param ticks from 0 on, in order
 */
record TimeAxis(String unit, List<Tick> ticks) {

  /**
   * @param fraction place, 0 to 1 of the side
   */
  record Tick(double fraction, String label) {}

  private static final int MOST_TICKS = 11;
  private static final double[] CLOCK_STEPS = {
    10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 36_000, 86_400, 604_800
  };

  static TimeAxis of(long frames, int sampleRateHz) {
    double seconds = frames / (double) sampleRateHz;
    if (frames == 0) {
      return new TimeAxis("s", List.of(new Tick(0, "0")));
    }
    if (seconds < 0.5) {
      return decimal(seconds * 1000, "ms");
    }
    return seconds < 120 ? decimal(seconds, "s") : clock(seconds);
  }

  private static TimeAxis decimal(double length, String unit) {
    int exponent = (int) Math.floor(StrictMath.log10(length / MOST_TICKS));
    double step = 0;
    for (int m : new int[] {1, 2, 5, 10}) {
      step = m * StrictMath.pow(10, exponent);
      if (length / step <= MOST_TICKS - 1) {
        exponent = m == 10 ? exponent + 1 : exponent;
        break;
      }
    }
    String format = "%." + Math.max(0, -exponent) + "f";
    List<Tick> ticks = new ArrayList<>();
    for (int i = 0; i * step <= length * (1 + 1e-12); i++) {
      ticks.add(new Tick(i * step / length, String.format(Locale.ROOT, format, i * step)));
    }
    return new TimeAxis(unit, List.copyOf(ticks));
  }

  private static TimeAxis clock(double seconds) {
    double step = CLOCK_STEPS[CLOCK_STEPS.length - 1];
    for (double s : CLOCK_STEPS) {
      if (seconds / s <= MOST_TICKS - 1) {
        step = s;
        break;
      }
    }
    boolean hours = seconds >= 3600;
    List<Tick> ticks = new ArrayList<>();
    for (int i = 0; i * step <= seconds; i++) {
      long t = (long) (i * step);
      long large = hours ? t / 3600 : t / 60;
      long small = hours ? t / 60 % 60 : t % 60;
      ticks.add(new Tick(t / seconds, String.format(Locale.ROOT, "%d:%02d", large, small)));
    }
    return new TimeAxis(hours ? "h:min" : "min:s", List.copyOf(ticks));
  }
}
