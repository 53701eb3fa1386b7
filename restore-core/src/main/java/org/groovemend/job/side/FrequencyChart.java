package org.groovemend.job.side;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.report.Chart;

/** Decibels over frequency on a logarithmic axis. */
public final class FrequencyChart {
  private static final int[] LABELLED = {20, 31, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000};

  /** For small panels. */
  private static final int[] FEW = {31, 125, 500, 2000, 8000};

  private FrequencyChart() {}

  /** A value at a frequency. */
  public static Chart.Point point(double hertz, double db) {
    return Chart.Point.exact(StrictMath.log10(hertz), db);
  }

  /**
   * Axes that hold all points.
   *
   * @param stepDb between the lines across
   * @param series their points from {@link #point}
   */
  public static Chart of(String yLabel, double stepDb, List<Chart.Series> series) {
    return of(yLabel, stepDb, series, LABELLED);
  }

  /** The same for a panel beside another. */
  public static Chart panel(String yLabel, double stepDb, List<Chart.Series> series) {
    return of(yLabel, stepDb, series, FEW);
  }

  private static Chart of(String yLabel, double stepDb, List<Chart.Series> series, int[] labelled) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (Chart.Series s : series) {
      for (Chart.Point p : s.points()) {
        least = Math.min(least, p.y());
        most = Math.max(most, p.y());
      }
    }
    double low = stepDb * Math.floor(least / stepDb);
    double high = Math.max(low + stepDb, stepDb * Math.ceil(most / stepDb));
    List<Chart.Tick> levels = new ArrayList<>();
    for (double y = low; y <= high; y += stepDb) {
      levels.add(new Chart.Tick(y, String.format(Locale.ROOT, "%.0f", y)));
    }
    List<Chart.Point> points = series.get(0).points();
    double from = points.get(0).x() - 0.05;
    double to = points.get(points.size() - 1).x() + 0.05;
    List<Chart.Tick> ticks = new ArrayList<>();
    double last = Double.NEGATIVE_INFINITY;
    for (int hertz : labelled) {
      double at = StrictMath.log10(hertz);
      // 20 and 31 would touch
      if (at >= from && at <= to && at - last > 0.2) {
        ticks.add(new Chart.Tick(at, hertz < 1000 ? "" + hertz : hertz / 1000 + "k"));
        last = at;
      }
    }
    return new Chart(
        "frequency (Hz)",
        yLabel,
        new Chart.Axis(from, to, ticks),
        new Chart.Axis(low, high, levels),
        series,
        false);
  }
}
