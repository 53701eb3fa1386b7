package org.groovemend.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.report.Chart;
import org.groovemend.surfacenoise.GrooveNoise;

/** Draws the sound of the bare groove in third octaves. */
final class GrooveChart {
  private static final double STEP_DB = 10;
  private static final int[] LABELLED = {31, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000};

  private GrooveChart() {}

  static Chart of(GrooveSound.Finding finding) {
    List<Chart.Series> series = new ArrayList<>();
    add(finding.leadIn(), "lead-in", series);
    if (finding.runOut() != null) {
      add(finding.runOut(), "run-out", series);
    }
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
      List<Chart.Point> points = new ArrayList<>();
      for (GrooveNoise.Band band : noise.thirdOctaves()) {
        points.add(Chart.Point.exact(StrictMath.log10(band.centreHz()), band.levelDbfs().get(c)));
      }
      String wall = SideFindings.wall(c, channels);
      series.add(new Chart.Series(where + wall, true, points));
    }
  }
}
