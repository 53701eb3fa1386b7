package org.groovemend.job.inspect;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.job.restore.DiscDrawing;
import org.groovemend.job.restore.GrooveLevels;
import org.groovemend.job.side.FrequencyChart;
import org.groovemend.job.speed.SpeedChart;
import org.groovemend.job.walls.WallChart;
import org.groovemend.job.walls.WallComparison;
import org.groovemend.report.Chart;
import org.groovemend.report.DiscLayout;
import org.groovemend.report.DiscMap;
import org.groovemend.report.DiscMark;
import org.groovemend.report.DiscMarksBuilder;
import org.groovemend.report.Envelope;
import org.groovemend.report.Figure;
import org.groovemend.report.Pictures;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.Scratch;
import org.groovemend.surfacenoise.GrooveNoise;
import org.groovemend.transfer.TickMeter;

/**
 * The pictures of an inspection, each with axes, units and words; what cannot be drawn says why.
 */
final class InspectionFigures {
  private static final double LOWEST_DB = -120;

  /** Longer sides are taken for fine grooves where nothing tells the speed. */
  private static final double FINE_GROOVE_SECONDS = 330;

  private final SideListening heard;
  private final String name;
  private final List<Figure> figures = new ArrayList<>();
  private final List<String> notShown = new ArrayList<>();

  InspectionFigures(SideListening heard, String name) {
    this.heard = heard;
    this.name = name;
    level();
    spectrogram();
    spectrum();
    walls();
    disc();
    pitch();
  }

  List<Figure> figures() {
    return figures;
  }

  /** A sentence for every picture that is missing. */
  List<String> notShown() {
    return notShown;
  }

  private void level() {
    Envelope e = heard.survey().envelope();
    double seconds = e.frames() / (double) e.sampleRateHz();
    List<Chart.Point> peaks = new ArrayList<>();
    List<Chart.Point> means = new ArrayList<>();
    int parts = Math.min(320, e.columns());
    for (int p = 0; p < parts; p++) {
      int from = p * e.columns() / parts;
      int to = (p + 1) * e.columns() / parts;
      double peak = 0;
      double square = 0;
      for (int c = 0; c < e.channels(); c++) {
        for (int i = from; i < to; i++) {
          peak = Math.max(peak, Math.max(e.max()[c][i], -e.min()[c][i]));
          square += e.rms()[c][i] * e.rms()[c][i] / ((to - from) * e.channels());
        }
      }
      double at = (p + 0.5) * seconds / parts;
      peaks.add(Chart.Point.exact(at, db(20, peak)));
      means.add(Chart.Point.exact(at, db(10, square)));
    }
    List<Chart.Series> series = new ArrayList<>();
    series.add(new Chart.Series("peaks, louder wall", true, false, peaks));
    series.add(new Chart.Series("root mean square, both walls", true, false, means));
    double groove = heard.survey().leadIn().levelDbfs();
    if (Double.isFinite(groove)) {
      series.add(
          new Chart.Series(
              "bare groove above 100 Hz",
              true,
              false,
              List.of(Chart.Point.exact(0, groove), Chart.Point.exact(seconds, groove))));
    }
    double low = LOWEST_DB;
    for (Chart.Point p : means) {
      // what is digital silence must not squeeze all others
      low = p.y() > LOWEST_DB && (low == LOWEST_DB || p.y() < low) ? p.y() : low;
    }
    low = Math.min(-60, 20 * Math.floor(low / 20));
    List<Chart.Tick> levels = new ArrayList<>();
    for (double y = low; y <= 0; y += 20) {
      levels.add(new Chart.Tick(y, String.format(Locale.ROOT, "%.0f", y)));
    }
    Chart chart =
        new Chart(
            seconds > 300 ? "time (min)" : "time (s)",
            "level (dB re full scale)",
            SpeedChart.time(seconds),
            new Chart.Axis(low, 0, levels),
            series,
            false);
    figures.add(
        new Figure(
            "Level over time",
            "Peak and mean level of the side over its time, and the level of the bare groove.",
            "Peaks far above the mean are clicks. The bare groove is drawn where it was found before the music.",
            Pictures.chart(chart)));
  }

  private static double db(double factor, double value) {
    return value <= 0 ? LOWEST_DB : Math.max(LOWEST_DB, factor * StrictMath.log10(value));
  }

  private void spectrogram() {
    figures.add(
        new Figure(
            "Spectrum over time",
            "Level of the side by time and frequency, frequency logarithmic.",
            "Time against frequency, logarithmic; both channels together, -110 to -10 dB re a full-scale sine. Upright lines"
                + " are clicks, level ones hum or tones; an even edge at the top is a filter.",
            Pictures.spectrogram(heard.spectrogram())));
  }

  private void spectrum() {
    List<Chart.Series> series = new ArrayList<>();
    List<Chart.Point> whole = new ArrayList<>();
    for (Map.Entry<Double, Double> band : heard.sound().spectrum().thirdOctaves().entrySet()) {
      whole.add(FrequencyChart.point(band.getKey(), Math.max(-160, band.getValue())));
    }
    if (whole.isEmpty()) {
      notShown.add("The side is too short for a picture of its spectrum.");
      return;
    }
    series.add(new Chart.Series("whole side", true, whole));
    groove(series, "bare groove before the music", heard.stretches().leadIn());
    groove(series, "bare groove behind the music", heard.stretches().runOut());
    figures.add(
        new Figure(
            "Spectrum against groove noise",
            "Third-octave levels of the whole side and of the bare groove.",
            "Third octaves, mean power of the channels. Where both run together nothing but the groove is heard.",
            Pictures.chart(
                FrequencyChart.of("level in third octaves (dB re full scale)", 20, series))));
  }

  private static void groove(List<Chart.Series> series, String name, GrooveNoise noise) {
    if (noise == null) {
      return;
    }
    List<Chart.Point> points = new ArrayList<>();
    for (GrooveNoise.Band band : noise.thirdOctaves()) {
      if (band.centreHz() > 45) {
        points.add(
            FrequencyChart.point(band.centreHz(), Math.max(-160, GrooveLevels.meanDbfs(band))));
      }
    }
    series.add(new Chart.Series(name, true, points));
  }

  private void walls() {
    if (heard.field().isEmpty()) {
      notShown.add("There are no two walls to draw: " + heard.walls().reason());
      return;
    }
    figures.add(
        new Figure(
            "Lateral and vertical",
            "How often the walls stand where: lateral movement upwards, vertical across.",
            "Darker or lighter by the legend: how many samples fall there. A mono groove is an upright line, a vertical cut"
                + " or a reversed lead a level one, stereo a cloud; a lean is imbalance, a thin loop a delay.",
            Pictures.field(heard.field())));
    if (!heard.walls().bands().isEmpty()) {
      figures.add(
          new Figure(
              "Walls by octave",
              "Correlation, vertical part, balance and delay of the walls by octave.",
              "What both walls share, as the command walls draws it.",
              Pictures.charts(
                  WallChart.of(
                      new WallComparison.Finding(
                          heard.survey().facts().format(),
                          heard.survey().facts().frames(),
                          heard.walls())))));
    }
  }

  private void disc() {
    long frames = heard.survey().facts().frames();
    int rate = heard.survey().facts().format().sampleRateHz();
    List<TickMeter.Place> places = heard.sound().tickMeter().places();
    if (places.isEmpty()) {
      notShown.add("There is not one tick to draw as the disc lies.");
      return;
    }
    RotationFinding rotation = heard.rotation();
    List<String> lines = new ArrayList<>();
    double rpm;
    if (DiscTurning.told(rotation)) {
      rpm = rotation.rpm();
      lines.add(DiscDrawing.speed(rpm) + " rpm");
      lines.add("from what recurs");
    } else {
      rpm =
          frames / (double) rate > FINE_GROOVE_SECONDS
              ? DiscSpeed.THIRTY_THREE.rpm()
              : DiscSpeed.SEVENTY_EIGHT.rpm();
      lines.add(DiscDrawing.speed(rpm) + " rpm");
      lines.add("ASSUMED: nothing");
      lines.add("recurs once a turn");
    }
    DiscLayout layout = DiscDrawing.layout(frames, rate, rpm);
    DiscMarksBuilder marks = new DiscMarksBuilder(layout);
    for (TickMeter.Place place : places) {
      marks.add(DiscMark.Kind.CLICK, place.frame(), place.times());
    }
    DiscMap map =
        new DiscMap(
            name + ": ticks as the disc lies",
            layout,
            lines,
            DiscSpeed.nearest(rpm).disc(),
            DiscTurning.told(rotation)
                ? rotation.scratches().stream().map(Scratch::frames).toList()
                : List.of(),
            DiscDrawing.bare(heard.survey().leadIn()));
    figures.add(
        new Figure(
            "Ticks as the disc lies",
            "The disc seen from above, outer groove outside, every tick a mark.",
            "Angle against radius; time runs inwards, counter-clockwise. Every tick of the quick count is a mark; joined rings:"
                + " rows that recur once a turn, as scratches do. Radii as common for the speed, pitch taken as constant.",
            Pictures.disc(map, marks)));
  }

  private void pitch() {
    if (!heard.speed().tuning().found() && !heard.speed().wow().found()) {
      notShown.add(
          "No picture of pitch over time: "
              + heard.speed().tuning().reason()
              + "; "
              + heard.speed().wow().reason()
              + ".");
      return;
    }
    var format = heard.survey().facts().format();
    figures.add(
        new Figure(
            "Pitch over time",
            "How far the notes lie off equal steps over the side, and how pitch sways over a turn if it does.",
            "With 95 % intervals. A slope is a turntable that drifts or a disc cut so; a sway is a disc off its centre.",
            Pictures.charts(
                SpeedChart.of(heard.speed(), format.seconds(heard.survey().facts().frames())))));
  }
}
