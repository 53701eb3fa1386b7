package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.groovemend.job.side.FrequencyChart;
import org.groovemend.report.Chart;
import org.groovemend.surfacenoise.GrooveNoise;

/** Charts of the sound of the bare groove in third octaves. */
final class GrooveChart {
  private static final double STEP_DB = 10;

  /** Of 24-bit words that are all zero nothing lower can be said. */
  private static final double LOWEST_DB = -160;

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
    return FrequencyChart.of("level of the third octave (dBFS)", STEP_DB, series);
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
      points.add(FrequencyChart.point(band.centreHz(), dbfs));
    }
    return new Chart.Series(name, true, points);
  }
}
