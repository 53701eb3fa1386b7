package org.groovemend.job.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleFunction;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.report.Chart;
import org.groovemend.speed.SpeedFinding;
import org.groovemend.speed.TuningFinding;
import org.groovemend.speed.WowFinding;

/** Charts of pitch over time, and over a turn if it sways. */
public final class SpeedChart {
  private static final double[] STEPS = {1, 2, 5};
  private static final int MOST_TICKS = 7;
  private static final double LEAST_CENTS = 10;

  private SpeedChart() {}

  public static List<Chart> of(SpeedFinding finding, double seconds) {
    List<Chart> charts = new ArrayList<>();
    if (finding.tuning().found()) {
      charts.add(overTime(finding.tuning(), seconds));
    }
    if (finding.wow().found()) {
      charts.add(overTurn(finding.wow()));
    }
    if (charts.isEmpty()) {
      throw new RequestRefusedException(
          "there is nothing to draw: " + finding.tuning().reason() + "; " + finding.wow().reason());
    }
    return charts;
  }

  private static Chart overTime(TuningFinding tuning, double seconds) {
    List<Chart.Point> points = new ArrayList<>();
    double least = tuning.cents() - LEAST_CENTS;
    double most = tuning.cents() + LEAST_CENTS;
    for (TuningFinding.Moment moment : tuning.overTime()) {
      double low = moment.cents() - moment.halfCents();
      double high = moment.cents() + moment.halfCents();
      points.add(new Chart.Point(moment.seconds(), moment.cents(), low, high));
      least = Math.min(least, moment.cents() - Math.min(moment.halfCents(), 20));
      most = Math.max(most, moment.cents() + Math.min(moment.halfCents(), 20));
    }
    List<Chart.Point> whole =
        List.of(Chart.Point.exact(0, tuning.cents()), Chart.Point.exact(seconds, tuning.cents()));
    boolean minutes = seconds > 300;
    return new Chart(
        minutes ? "time (min)" : "time (s)",
        String.format(Locale.ROOT, "notes off A = %.0f Hz (cents)", tuning.a4Hz()),
        time(seconds),
        axis(least, most, SpeedChart::signed, 1),
        List.of(
            new Chart.Series("parts, 95 %", false, points),
            new Chart.Series("whole side", true, whole)),
        false);
  }

  private static Chart overTurn(WowFinding wow) {
    List<Chart.Point> points = new ArrayList<>();
    double most = 1.3 * wow.peak();
    for (WowFinding.Angle angle : wow.turn()) {
      double low = angle.deviation() - angle.half();
      double high = angle.deviation() + angle.half();
      points.add(new Chart.Point(angle.degrees(), 100 * angle.deviation(), 100 * low, 100 * high));
      most = Math.max(most, Math.max(high, -low));
    }
    most = Math.min(most, 2 * wow.peak());
    List<Chart.Tick> degrees = new ArrayList<>();
    for (int d = 0; d <= 360; d += 90) {
      degrees.add(new Chart.Tick(d, "" + d));
    }
    return new Chart(
        "angle of the turn (degrees)",
        "pitch over a turn, mid side (%)",
        new Chart.Axis(0, 360, degrees),
        axis(-100 * most, 100 * most, SpeedChart::signed, 1),
        List.of(
            new Chart.Series("music, mean of all turns, 95 %", false, points),
            new Chart.Series("what is taken for wow", true, fitted(wow))),
        false);
  }

  private static List<Chart.Point> fitted(WowFinding wow) {
    List<Chart.Point> points = new ArrayList<>();
    double turn = wow.wow().turnSeconds();
    double scale = wow.peak() / wow.wow().peak(0);
    for (int d = 0; d <= 360; d += 15) {
      double seconds = d / 360.0 * turn;
      // radius of the first groove is that of the model; brought to mid side by the peaks
      double mm = wow.wow().deviation(seconds) * wow.wow().radiusMm(seconds);
      points.add(Chart.Point.exact(d, 100 * scale * mm / wow.wow().radiusMm(0)));
    }
    return points;
  }

  /** Time of a side: minutes for one of more than 5, else seconds. */
  public static Chart.Axis time(double seconds) {
    double unit = seconds > 300 ? 60 : 1;
    return axis(0, seconds, x -> number(x / unit), unit);
  }

  /** An axis with ticks at round numbers of a unit. */
  private static Chart.Axis axis(
      double low, double high, DoubleFunction<String> label, double unit) {
    double range = (high - low) / unit;
    double step = StrictMath.pow(10, Math.floor(StrictMath.log10(range / MOST_TICKS)));
    for (int i = 0; range / step > MOST_TICKS; i++) {
      double decade = StrictMath.pow(10, Math.floor(StrictMath.log10(range / MOST_TICKS)));
      step = decade * (i < STEPS.length ? STEPS[i] : 10);
    }
    List<Chart.Tick> ticks = new ArrayList<>();
    for (long k = (long) Math.ceil(low / unit / step - 1e-9); k * step * unit <= high; k++) {
      ticks.add(new Chart.Tick(k * step * unit, label.apply(k * step * unit)));
    }
    return new Chart.Axis(low, high, ticks);
  }

  private static String number(double x) {
    String text = String.format(Locale.ROOT, "%.3f", x);
    return text.contains(".") ? text.replaceFirst("\\.?0+$", "") : text;
  }

  private static String signed(double x) {
    String text = number(x);
    return x > 0 && !text.equals("0") ? "+" + text : text.equals("-0") ? "0" : text;
  }
}
