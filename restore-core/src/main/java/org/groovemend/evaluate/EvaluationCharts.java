package org.groovemend.evaluate;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.report.Chart;
import org.groovemend.report.Pictures;
import org.groovemend.signal.interval.RateInterval;

/** The pictures of an evaluation, PNG. */
public final class EvaluationCharts {
  private static final double LEAST = 0.01;
  private static final double MOST = 1000;

  /** Repairs below which a precision says nothing. */
  private static final int FEWEST = 10;

  private EvaluationCharts() {}

  /**
   * Recall of prominent damage against precision as the threshold moves: a panel for each sound, a
   * line for each scenario.
   *
   * @return null if no trial has a sweep with damage in it
   */
  public static byte[] precisionAndRecall(List<Trial> trials) {
    List<String> sounds = trials.stream().map(Trial::sound).distinct().toList();
    List<Chart> panels = new ArrayList<>();
    for (String sound : sounds) {
      List<Chart.Series> lines =
          sweeps(trials.stream().filter(t -> t.sound().equals(sound)).toList());
      if (!lines.isEmpty()) {
        String repairs = "precision: repairs that are of damage";
        panels.add(
            new Chart(
                "recall: prominent damage that is found",
                sounds.size() == 1 ? repairs : sound + ": precision",
                Chart.Axis.share(),
                Chart.Axis.share(),
                lines,
                false));
      }
    }
    if (panels.isEmpty()) {
      return null;
    }
    return panels.size() == 1 ? Pictures.chart(panels.get(0)) : Pictures.charts(panels);
  }

  private static List<Chart.Series> sweeps(List<Trial> trials) {
    List<Chart.Series> lines = new ArrayList<>();
    for (Scenario scenario : Scenario.values()) {
      List<Trial> of =
          trials.stream()
              .filter(t -> t.scenario() == scenario && scenario != Scenario.CLEAN)
              .filter(t -> !t.sweep().isEmpty())
              .toList();
      List<Chart.Point> points = new ArrayList<>();
      int steps = of.isEmpty() ? 0 : of.get(0).sweep().size();
      for (int i = 0; i < steps; i++) {
        int at = i;
        int prominent = of.stream().mapToInt(t -> t.sweep().get(at).prominent()).sum();
        int found = of.stream().mapToInt(t -> t.sweep().get(at).found()).sum();
        int repairs = of.stream().mapToInt(t -> t.sweep().get(at).repairs()).sum();
        int wrong = of.stream().mapToInt(t -> t.sweep().get(at).falseRepairs()).sum();
        if (prominent > 0 && repairs >= FEWEST) {
          points.add(Chart.Point.exact(found / (double) prominent, 1 - wrong / (double) repairs));
        }
      }
      if (!points.isEmpty() && lines.size() < 4) {
        lines.add(new Chart.Series(scenario.key(), true, points));
      }
    }
    return lines;
  }

  /**
   * False repairs a minute, found against expected, on logarithmic axes; a point for each sound and
   * scenario, with the 95 % interval of what was found.
   */
  public static byte[] alarms(List<Trial> trials) {
    List<Chart.Point> clean = new ArrayList<>();
    List<Chart.Point> damaged = new ArrayList<>();
    for (List<Trial> row : Summary.rows(trials)) {
      double expected =
          row.stream().mapToDouble(Trial::expectedFalsePerMinute).average().orElse(Double.NaN);
      if (Double.isNaN(expected)) {
        continue;
      }
      double minutes = Summary.minutes(row);
      int found = Summary.falseRepairs(row);
      RateInterval interval = RateInterval.gamma(found, minutes);
      boolean undamaged = row.get(0).scenario() == Scenario.CLEAN;
      (undamaged ? clean : damaged)
          .add(
              new Chart.Point(
                  log(expected),
                  log(found / minutes),
                  found == 0 ? log(0) : log(interval.low()),
                  log(interval.high())));
    }
    Chart.Axis axis =
        new Chart.Axis(
            log(LEAST),
            log(MOST),
            List.of(
                new Chart.Tick(-2, "0.01"),
                new Chart.Tick(-1, "0.1"),
                new Chart.Tick(0, "1"),
                new Chart.Tick(1, "10"),
                new Chart.Tick(2, "100"),
                new Chart.Tick(3, "1000")));
    return Pictures.chart(
        new Chart(
            "expected false repairs a minute (0.01 or less at the left edge)",
            "found a minute, with 95% interval (none at the lower edge)",
            axis,
            axis,
            List.of(
                new Chart.Series("undamaged sound", false, clean),
                new Chart.Series("damaged copies", false, damaged)),
            true));
  }

  private static double log(double rate) {
    return StrictMath.log10(Math.max(LEAST, Math.min(MOST, rate)));
  }
}
