package org.groovemend.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.groovemend.report.Chart;
import org.groovemend.surfacenoise.GrooveNoise;

/** Charts of the sound of the bare groove in third octaves. */
final class GrooveChart {
  private static final double STEP_DB = 10;

  /** Of 24-bit words that are all zero nothing lower can be said. */
  private static final double LOWEST_DB = -160;

  private static final int[] LABELLED = {31, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000};

  private GrooveChart() {}

  /** Lead-in and run-out, channel by channel. */
  static Chart of(GrooveSound.Finding finding) {
    List<Chart.Series> series = new ArrayList<>();
    add(finding.leadIn(), "lead-in", series);
    if (finding.runOut() != null) {
      add(finding.runOut(), "run-out", series);
    }
    return of(series);
  }

  /** Before and after, mean power of the channels; after has the colour and mark of the copy. */
  static Chart of(GrooveChange change) {
    return of(List.of(mean(change.after(), "after"), mean(change.before(), "before")));
  }

  private static Chart of(List<Chart.Series> series) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (Chart.Series s : series) {
      for (Chart.Point p : s.points()) {
        least = Math.min(least, p.y());
        most = Math.max(most, p.y());
      }
    }
    double low = STEP_DB * Math.floor(least / STEP_DB);
    double high = Math.max(low + STEP_DB, STEP_DB * Math.ceil(most / STEP_DB));
    List<Chart.Tick> levels = new ArrayList<>();
    for (double y = low; y <= high; y += STEP_DB) {
      levels.add(new Chart.Tick(y, String.format(Locale.ROOT, "%.0f", y)));
    }
    List<Chart.Point> points = series.get(0).points();
    double from = points.get(0).x() - 0.05;
    double to = points.get(points.size() - 1).x() + 0.05;
    List<Chart.Tick> ticks = new ArrayList<>();
    for (int hertz : LABELLED) {
      double at = StrictMath.log10(hertz);
      if (at >= from && at <= to) {
        ticks.add(new Chart.Tick(at, hertz < 1000 ? "" + hertz : hertz / 1000 + "k"));
      }
    }
    return new Chart(
        "frequency (Hz)",
        "level of the third octave (dBFS)",
        new Chart.Axis(from, to, ticks),
        new Chart.Axis(low, high, levels),
        series,
        false);
  }

  private static void add(GrooveNoise noise, String where, List<Chart.Series> series) {
    int channels = noise.power().length;
    for (int c = 0; c < channels; c++) {
      int channel = c;
      String wall = SideFindings.wall(c, channels);
      series.add(series(noise, where + wall, band -> band.levelDbfs().get(channel)));
    }
  }

  private static Chart.Series mean(GrooveNoise noise, String name) {
    return series(noise, name, GrooveLevels::meanDbfs);
  }

  private static Chart.Series series(
      GrooveNoise noise, String name, ToDoubleFunction<GrooveNoise.Band> level) {
    List<Chart.Point> points = new ArrayList<>();
    for (GrooveNoise.Band band : noise.thirdOctaves()) {
      double dbfs = Math.max(LOWEST_DB, level.applyAsDouble(band));
      points.add(Chart.Point.exact(StrictMath.log10(band.centreHz()), dbfs));
    }
    return new Chart.Series(name, true, points);
  }
}
