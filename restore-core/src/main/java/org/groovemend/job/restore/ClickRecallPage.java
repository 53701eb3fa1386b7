package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.click.ClickAlarms;
import org.groovemend.click.ClickCalibration;
import org.groovemend.click.ClickRecall;
import org.groovemend.report.Chart;
import org.groovemend.report.Fact;
import org.groovemend.report.Figure;
import org.groovemend.report.Pictures;

/** What the trials with added clicks say, for the page. */
final class ClickRecallPage {
  private static final double NEARLY_ALL = 0.9;

  private ClickRecallPage() {}

  static Fact alarms(ClickCalibration clicks) {
    ClickAlarms alarms = clicks.alarms();
    return new Fact(
        "False alarms expected",
        String.format(Locale.ROOT, "%.2f", alarms.perMinute()),
        "a minute",
        String.format(
            Locale.ROOT,
            "At the threshold found for this side, from the odds of its own places; %.0f s were looked at, so the rate may"
                + " be anything from %.1f to %.1f (95 %% interval).",
            clicks.analysedSeconds(),
            alarms.low(),
            alarms.high()));
  }

  /** Said when even loud clicks are mostly missed. */
  static String blind(ClickRecall recall) {
    ClickRecall.Size loud = recall.loud();
    return String.format(
        Locale.ROOT,
        "Most damage of this side may be left: of %d loud clicks added to working copies only %d were found. Where damage is"
            + " this dense, or the sound itself this jagged, the one cannot be told from the other. Listen before you rely"
            + " on the copy, and have the disc cleaned and transferred anew if that can be done.",
        loud.injected(),
        loud.found());
  }

  /**
   * @return null if no clicks were tried
   */
  static Fact found(ClickRecall recall) {
    if (recall == null || recall.sizes().isEmpty()) {
      return null;
    }
    ClickRecall.Size least = null;
    for (int i = recall.sizes().size() - 1; i >= 0; i--) {
      ClickRecall.Size size = recall.sizes().get(i);
      if (size.share() < NEARLY_ALL) {
        break;
      }
      least = size;
    }
    if (least == null) {
      ClickRecall.Size largest = recall.sizes().get(recall.sizes().size() - 1);
      return new Fact(
          "Clicks that are found",
          String.format(Locale.ROOT, "%.0f %%", 100 * largest.share()),
          "",
          String.format(
              Locale.ROOT,
              "Even of clicks %.0f dB over their surroundings no more: clicks hide well in this sound.",
              largest.decibels()));
    }
    return new Fact(
        "Clicks that are found",
        String.format(Locale.ROOT, "from %.0f", least.decibels()),
        "dB",
        String.format(
            Locale.ROOT,
            "Of clicks that stand %.0f dB over their surroundings %.0f %% are found (95 %% interval %.0f to %.0f %%),"
                + " of larger ones nine in ten or more; smaller ones are left more often.",
            least.decibels(),
            100 * least.share(),
            100 * least.low(),
            100 * least.high()));
  }

  /** The chart, or nothing. */
  static List<Figure> figures(ClickRecall recall) {
    if (recall == null || recall.sizes().isEmpty()) {
      return List.of();
    }
    List<Chart.Point> points = new ArrayList<>();
    List<Chart.Tick> ticks = new ArrayList<>();
    int tried = 0;
    for (ClickRecall.Size size : recall.sizes()) {
      points.add(new Chart.Point(size.decibels(), size.share(), size.low(), size.high()));
      ticks.add(
          new Chart.Tick(size.decibels(), String.format(Locale.ROOT, "%.0f", size.decibels())));
      tried = Math.max(tried, size.injected());
    }
    double lowest = recall.sizes().get(0).decibels();
    double highest = recall.sizes().get(recall.sizes().size() - 1).decibels();
    Chart chart =
        new Chart(
            "size of the click (dB over its surroundings)",
            "clicks found, with 95% interval",
            new Chart.Axis(lowest - 3, highest + 3, ticks),
            Chart.Axis.share(),
            List.of(new Chart.Series("found", true, points)),
            false);
    String shapes =
        recall.shapes().equals(ClickRecall.OF_SIDE)
            ? "with the shapes of " + recall.shapeCount() + " of this side's own clicks"
            : "of standard shapes, since the side showed too few of its own,";
    return List.of(
        new Figure(
            "Clicks that are found, by size",
            "Share of added clicks that were found, by size: " + inWords(recall) + ".",
            "Clicks "
                + shapes
                + " were added to working copies of the side, up to "
                + tried
                + " of each size, and sought like any other. Size: what the click adds to the prediction"
                + " error, as energy, over the variance of that error about it. What lies left of the rise is too small"
                + " to be told from the music and stays.",
            Pictures.chart(chart)));
  }

  private static String inWords(ClickRecall recall) {
    List<String> parts = new ArrayList<>();
    for (ClickRecall.Size size : recall.sizes()) {
      parts.add(String.format(Locale.ROOT, "%.0f dB %.0f %%", size.decibels(), 100 * size.share()));
    }
    return String.join(", ", parts);
  }
}
