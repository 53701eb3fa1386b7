package org.groovemend.job.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audit.AuditOutcome;
import org.groovemend.audit.SoftLoud;
import org.groovemend.audit.TransferBand;
import org.groovemend.report.Chart;
import org.groovemend.report.Figure;
import org.groovemend.report.Pictures;

/** Charts of an audit. */
final class AuditChart {
  private static final double LOWEST_DB = -140;
  private static final double COHERENT = 0.5;
  private static final double HIGHEST_HERTZ = 22_000;

  private AuditChart() {}

  /** Largest difference and largest sample over time. */
  static Figure course(Audit.Result result) {
    AuditOutcome outcome = result.outcome();
    double seconds = result.derivative().format().seconds(result.derivative().frames());
    Chart chart =
        new Chart(
            "time (s)",
            "largest value in each column (dBFS)",
            new Chart.Axis(0, Math.max(seconds, 1e-3), ticks(0, seconds, step(seconds, 8), "%.0f")),
            new Chart.Axis(LOWEST_DB, 0, ticks(LOWEST_DB, 0, 20, "%.0f")),
            List.of(
                series("difference", outcome.differenceDbfs(), seconds),
                series("sound", outcome.soundDbfs(), seconds)),
            false);
    return new Figure(
        "Difference over time",
        "Line of the largest difference over time, beside that of the sound itself",
        "Each mark is the largest value in its column of time; no difference at all is drawn at -140 dBFS."
            + " With a ledger it is the whole difference, else what is left when gain, filter and place are taken out.",
        Pictures.chart(chart));
  }

  private static Chart.Series series(String name, List<Double> values, double seconds) {
    List<Chart.Point> points = new ArrayList<>();
    for (int i = 0; i < values.size(); i++) {
      double db = Math.max(LOWEST_DB, values.get(i));
      points.add(Chart.Point.exact((i + 0.5) * seconds / values.size(), db));
    }
    return new Chart.Series(name, true, points);
  }

  /** The filter by third octaves. */
  static Figure transfer(AuditOutcome outcome) {
    List<Chart.Series> series = new ArrayList<>();
    double low = 0;
    double high = 0;
    for (int c = 0; c < 2; c++) {
      List<Chart.Point> points = new ArrayList<>();
      for (TransferBand b : outcome.transfer()) {
        if (b.channel() == c && b.coherence() > COHERENT && b.centreHertz() < HIGHEST_HERTZ) {
          points.add(Chart.Point.exact(StrictMath.log10(b.centreHertz()), b.gainDb()));
          low = Math.min(low, b.gainDb());
          high = Math.max(high, b.gainDb());
        }
      }
      if (!points.isEmpty()) {
        series.add(new Chart.Series(c == 0 ? "first channel" : "second channel", true, points));
      }
    }
    return new Figure(
        "Filter",
        "Gain of the derivative re the original by third octave",
        "Third octaves in which the filter explains more than half of the power; 0 dB is the original's level.",
        Pictures.chart(bands("gain re the original (dB)", low, high, series)));
  }

  /** How soft and loud sound was lowered. */
  static Figure softLoud(AuditOutcome outcome) {
    List<Chart.Point> soft = new ArrayList<>();
    List<Chart.Point> loud = new ArrayList<>();
    double low = 0;
    double high = 0;
    for (SoftLoud b : outcome.softLoud()) {
      if (b.centreHertz() > HIGHEST_HERTZ) {
        break;
      }
      double x = StrictMath.log10(b.centreHertz());
      soft.add(Chart.Point.exact(x, b.softDb()));
      loud.add(Chart.Point.exact(x, b.loudDb()));
      low = Math.min(low, Math.min(b.softDb(), b.loudDb()));
      high = Math.max(high, Math.max(b.softDb(), b.loudDb()));
    }
    return new Figure(
        "Soft and loud sound",
        "Gain of the softest and of the loudest moments by third octave",
        "Median gain of the softest three tenths and of the loudest tenth of the moments, filter and gain taken out."
            + " Where soft sound lies lower, noise was reduced.",
        Pictures.chart(
            bands(
                "gain (dB)",
                low,
                high,
                List.of(
                    new Chart.Series("softest", true, soft),
                    new Chart.Series("loudest", true, loud)))));
  }

  private static Chart bands(String label, double low, double high, List<Chart.Series> series) {
    double step = step(Math.max(1, high - low), 6);
    double from = step * (Math.floor(low / step) - 0);
    double to = step * Math.max(Math.ceil(high / step), Math.floor(low / step) + 1);
    List<Chart.Tick> ticks = new ArrayList<>();
    for (double hertz : new double[] {20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000}) {
      ticks.add(
          new Chart.Tick(
              StrictMath.log10(hertz),
              hertz < 1000
                  ? String.format(Locale.ROOT, "%.0f", hertz)
                  : String.format(Locale.ROOT, "%.0fk", hertz / 1000)));
    }
    return new Chart(
        "third octave (Hz)",
        label,
        new Chart.Axis(StrictMath.log10(18), StrictMath.log10(24_000), ticks),
        new Chart.Axis(from, to, ticks(from, to, step, step < 1 ? "%.1f" : "%.0f")),
        series,
        false);
  }

  private static double step(double range, int most) {
    double step = 1e-3;
    for (int i = 0; range / step > most; i++) {
      step *= i % 3 == 1 ? 2.5 : 2;
    }
    return step;
  }

  private static List<Chart.Tick> ticks(double from, double to, double step, String format) {
    List<Chart.Tick> ticks = new ArrayList<>();
    for (int i = 0; from + i * step <= to + 1e-9; i++) {
      double at = from + i * step;
      ticks.add(
          new Chart.Tick(at, String.format(Locale.ROOT, format, Math.abs(at) < 1e-9 ? 0.0 : at)));
    }
    return ticks;
  }
}
