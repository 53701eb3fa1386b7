package org.groovemend.job.plays;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.groovemend.job.side.FrequencyChart;
import org.groovemend.plays.PlayFinding;
import org.groovemend.report.Chart;
import org.groovemend.report.Figure;
import org.groovemend.report.MeasurementSheet;
import org.groovemend.report.NumberTable;
import org.groovemend.report.Pictures;

/** Page and pictures of a comparison of plays. */
final class PlaysPage {

  /** Series that the marks of a chart can tell apart. */
  private static final int DRAWN = 4;

  private static final double LOWEST_DB = -160;

  /** Half of the least range of a chart by minutes, dB or clicks. */
  private static final double LEAST_RANGE = 2;

  /** Share of the speeds that sets the range: the map's ends, without music, may swing. */
  private static final double SHOWN = 0.95;

  private static final int MOST_POINTS = 240;

  private PlaysPage() {}

  static byte[] picture(ComparePlays.Finding finding) {
    List<Chart> charts = new ArrayList<>();
    charts.add(noise(finding, true));
    charts.add(speed(finding));
    charts.add(
        minutes(finding, "noise of its own (dB(A) re full scale)", PlayMeasures.Minute::noiseDba));
    charts.add(minutes(finding, "clicks of its own, a minute", PlayMeasures.Minute::clicksAlone));
    return Pictures.charts(charts);
  }

  static String page(ComparePlays.Finding finding, ComparePlays.Request request) {
    StringBuilder out = new StringBuilder();
    try {
      new MeasurementSheet(
              "Comparison of plays",
              finding.plays().get(0).name() + " and others",
              PlaysWords.summary(finding),
              "Prepared by " + request.program() + ", " + request.preparedAt() + ".",
              List.of(ranking(finding), alignment(finding), course(finding)))
          .write(out);
    } catch (IOException e) {
      throw new UncheckedIOException(e); // a builder does not fail
    }
    return out.toString();
  }

  private static MeasurementSheet.Section ranking(ComparePlays.Finding finding) {
    List<List<String>> rows = new ArrayList<>();
    for (int p : finding.ranking()) {
      rows.add(PlaysWords.row(finding.plays().get(p)));
    }
    return new MeasurementSheet.Section(
        "Which is better",
        "Best first. What all plays share, the music and the noise that is in the groove itself, is"
            + " not counted here.",
        List.of(),
        List.of(
            new NumberTable(
                "Plays, levels at that of " + finding.plays().get(0).name(),
                PlaysWords.TITLES,
                rows,
                PlaysWords.NOTE)),
        List.of(
            new Figure(
                "Noise of each play alone",
                "Level of the noise that only this play has, by third octave, one line a play",
                "Third octaves, dB re full scale, at the level and response of the reference. Lower"
                    + " is better.",
                Pictures.chart(noise(finding, false)))));
  }

  private static MeasurementSheet.Section alignment(ComparePlays.Finding finding) {
    List<List<String>> rows = new ArrayList<>();
    for (PlayMeasures play : finding.plays().subList(1, finding.plays().size())) {
      rows.add(PlaysWords.alignmentRow(play));
    }
    return new MeasurementSheet.Section(
        "How they lie against the first",
        "Time maps follow the difference of speed, drift and wow.",
        List.of(),
        List.of(
            new NumberTable(
                "Against " + finding.plays().get(0).name(), PlaysWords.ALIGNMENT_TITLES, rows, "")),
        List.of(
            new Figure(
                "Difference of speed",
                "Departure of each play's speed from its mean, along the side",
                "Per cent, against the first play, over time. Once a turn it swings with wow.",
                Pictures.chart(speed(finding)))));
  }

  private static MeasurementSheet.Section course(ComparePlays.Finding finding) {
    List<Figure> figures =
        List.of(
            new Figure(
                "Noise of its own, minute by minute",
                "Noise level over time, one line a play",
                "dB(A) re full scale.",
                Pictures.chart(
                    minutes(
                        finding,
                        "noise of its own (dB(A) re full scale)",
                        PlayMeasures.Minute::noiseDba))),
            new Figure(
                "Clicks of its own, minute by minute",
                "Clicks a minute over time, one line a play",
                "Places that this play has and another has not.",
                Pictures.chart(
                    minutes(
                        finding, "clicks of its own, a minute", PlayMeasures.Minute::clicksAlone))),
            new Figure(
                "Hint of distortion, minute by minute",
                "Unshared sound in loud passages over that in soft ones, one line a play",
                "2 to 10 kHz, dB. What grows with the music and is in one play only may be"
                    + " distortion, mistracking or wear.",
                Pictures.chart(
                    minutes(
                        finding,
                        "unshared sound, loud over soft (dB)",
                        PlayMeasures.Minute::loudExcessDb))));
    return new MeasurementSheet.Section("Along the side", "", List.of(), List.of(), figures);
  }

  private static Chart noise(ComparePlays.Finding finding, boolean panel) {
    List<Chart.Series> series = new ArrayList<>();
    for (PlayMeasures play : drawn(finding)) {
      List<Chart.Point> points = new ArrayList<>();
      for (PlayMeasures.Band band : play.noise()) {
        points.add(FrequencyChart.point(band.centreHertz(), Math.max(LOWEST_DB, band.dbfs())));
      }
      series.add(new Chart.Series(label(play), true, points));
    }
    String label = "noise of its own (dBFS a third octave)";
    return panel ? FrequencyChart.panel(label, 20, series) : FrequencyChart.of(label, 10, series);
  }

  private static List<PlayMeasures> drawn(ComparePlays.Finding finding) {
    return finding.ranking().stream().limit(DRAWN).map(finding.plays()::get).toList();
  }

  private static String label(PlayMeasures play) {
    return Pictures.fitted(play.name(), 30);
  }

  private static Chart speed(ComparePlays.Finding finding) {
    List<Chart.Series> series = new ArrayList<>();
    double most = 0.01;
    for (PlayMeasures play : drawn(finding)) {
      List<PlayFinding.Moment> course = play.alignment().course();
      List<Chart.Point> points = new ArrayList<>();
      int step = Math.max(1, course.size() / MOST_POINTS);
      for (int i = 1; i < course.size(); i += step) {
        PlayFinding.Moment a = course.get(i - 1);
        PlayFinding.Moment b = course.get(i);
        double percent =
            -100
                * (b.delaySamples() - a.delaySamples())
                / finding.rateHz()
                / (b.seconds() - a.seconds());
        points.add(Chart.Point.exact(b.seconds(), percent));
      }
      double[] sizes = points.stream().mapToDouble(q -> Math.abs(q.y())).sorted().toArray();
      if (sizes.length > 0) {
        most = Math.max(most, 1.2 * sizes[(int) (SHOWN * (sizes.length - 1))]);
      }
      if (!points.isEmpty()) {
        series.add(new Chart.Series(label(play), points.size() > 1, points.size() < 2, points));
      }
    }
    return new Chart(
        "time (s)",
        "departure of the speed from its mean (%)",
        axis(finding.fromSeconds(), finding.toSeconds()),
        axis(-most, most),
        series,
        false);
  }

  private static Chart minutes(
      ComparePlays.Finding finding, String label, ToDoubleFunction<PlayMeasures.Minute> value) {
    List<Chart.Series> series = new ArrayList<>();
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (PlayMeasures play : drawn(finding)) {
      List<Chart.Point> points = new ArrayList<>();
      for (PlayMeasures.Minute minute : play.minutes()) {
        double y = Math.max(LOWEST_DB, value.applyAsDouble(minute));
        double end = Math.min(minute.fromSeconds() + 60, finding.toSeconds());
        points.add(Chart.Point.exact((minute.fromSeconds() + end) / 2, y));
        low = Math.min(low, y);
        high = Math.max(high, y);
      }
      series.add(new Chart.Series(label(play), true, points));
    }
    // hairs must not look like differences, nor points lie on the frame
    double more = Math.max(0.1 * (high - low), LEAST_RANGE - (high - low) / 2);
    low -= more;
    high += more;
    return new Chart(
        "time (s)", label, axis(0, finding.toSeconds()), axis(low, high), series, false);
  }

  /** Round ticks that hold a range. */
  private static Chart.Axis axis(double from, double to) {
    double wanted = (to - from) / 5;
    double power = StrictMath.pow(10, Math.floor(StrictMath.log10(wanted)));
    double times = wanted / power;
    double step =
        times < 1.5 ? power : times < 3.5 ? 2 * power : times < 7.5 ? 5 * power : 10 * power;
    int decimals = (int) Math.max(0, -Math.floor(StrictMath.log10(step) + 1e-9));
    double low = step * Math.floor(from / step);
    double high = step * Math.ceil(to / step);
    List<Chart.Tick> ticks = new ArrayList<>();
    for (int i = 0; low + i * step <= high + step / 2; i++) {
      double at = low + i * step;
      ticks.add(
          new Chart.Tick(
              at,
              String.format(
                  Locale.ROOT, "%." + decimals + "f", Math.abs(at) < step / 9 ? 0.0 : at)));
    }
    return new Chart.Axis(low, high, ticks);
  }
}
