package org.groovemend.job.walls;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.groovemend.report.Chart;
import org.groovemend.walls.DelayFinding;
import org.groovemend.walls.PassageDelay;
import org.groovemend.walls.WallBand;
import org.groovemend.walls.WallFinding;

/**
 * Charts of how the groove walls agree: correlation, vertical part and balance by octave, delay.
 */
public final class WallChart {
  private static final double LOWEST_DB = -60;
  private static final double NINETY_FIVE = 1.96;

  /** An octave whose balance is known no better tells nothing. */
  private static final double WIDEST_DB = 6;

  private WallChart() {}

  /** Four panels; balance is missing where no octave tells it, delay where no passage does. */
  public static List<Chart> of(WallComparison.Finding finding) {
    WallFinding walls = finding.walls();
    List<Chart> charts = new ArrayList<>();
    charts.add(
        octaves(
            walls,
            "correlation of the walls",
            new Chart.Axis(-1, 1, ticks(-1, 1, 0.5, "%.1f")),
            List.of(
                series(
                    walls,
                    "correlation",
                    b -> Double.isNaN(b.correlation()) ? 0 : b.correlation()))));
    charts.add(
        octaves(
            walls,
            (walls.delay().opposed() ? "lateral re vertical" : "vertical re lateral")
                + ", loud seconds (dB)",
            new Chart.Axis(LOWEST_DB, 10, ticks(LOWEST_DB, 10, 10, "%.0f")),
            List.of(series(walls, "part", b -> finite(b.verticalDb())))));
    Chart balance = balance(walls);
    if (balance != null) {
      charts.add(balance);
    }
    if (!walls.delay().passages().isEmpty()) {
      charts.add(delay(finding));
    }
    return charts;
  }

  private static double finite(double db) {
    return Double.isNaN(db) ? LOWEST_DB : Math.max(LOWEST_DB, Math.min(10, db));
  }

  private static Chart octaves(
      WallFinding walls, String label, Chart.Axis y, List<Chart.Series> series) {
    List<Chart.Tick> ticks = new ArrayList<>();
    List<WallBand> bands = walls.bands();
    for (int b = 0; b < bands.size(); b += 2) {
      double hertz = bands.get(b).centreHertz();
      ticks.add(
          new Chart.Tick(
              StrictMath.log10(hertz),
              hertz < 1000
                  ? String.format(Locale.ROOT, "%.0f", hertz)
                  : String.format(Locale.ROOT, "%.0fk", hertz / 1000)));
    }
    double from = StrictMath.log10(bands.get(0).centreHertz()) - 0.1;
    double to = StrictMath.log10(bands.get(bands.size() - 1).centreHertz()) + 0.1;
    return new Chart("octave (Hz)", label, new Chart.Axis(from, to, ticks), y, series, false);
  }

  private static Chart.Series series(
      WallFinding walls, String name, ToDoubleFunction<WallBand> value) {
    List<Chart.Point> points = new ArrayList<>();
    for (WallBand band : walls.bands()) {
      points.add(
          Chart.Point.exact(StrictMath.log10(band.centreHertz()), value.applyAsDouble(band)));
    }
    return new Chart.Series(name, true, points);
  }

  /** Null if no octave tells its balance: on a side of seconds all intervals may be too wide. */
  private static Chart balance(WallFinding walls) {
    List<Chart.Point> points = new ArrayList<>();
    double reach = 1;
    for (WallBand band : walls.bands()) {
      double doubt = NINETY_FIVE * band.balanceDoubtDb();
      if (!(doubt <= WIDEST_DB)) {
        continue;
      }
      double low = band.balanceDb() - doubt;
      double high = band.balanceDb() + doubt;
      points.add(
          new Chart.Point(StrictMath.log10(band.centreHertz()), band.balanceDb(), low, high));
      reach = Math.max(reach, Math.ceil(Math.max(high, -low)));
    }
    if (points.isEmpty()) {
      return null;
    }
    return octaves(
        walls,
        "balance, right re left (dB), 95 %",
        new Chart.Axis(-reach, reach, ticks(-reach, reach, reach / 2, "%.1f")),
        List.of(new Chart.Series("balance", true, points)));
  }

  private static Chart delay(WallComparison.Finding finding) {
    DelayFinding delay = finding.walls().delay();
    double micro = 1e6 / finding.format().sampleRateHz();
    double seconds = finding.format().seconds(finding.frames());
    List<Chart.Point> points = new ArrayList<>();
    double[] sorted =
        delay.passages().stream().mapToDouble(PassageDelay::samples).sorted().toArray();
    // one stray passage must not flatten all others
    double least = micro * sorted[sorted.length / 10];
    double most = micro * sorted[(int) (0.9 * (sorted.length - 1))];
    double step = step(Math.max(most - least, 0.02 * micro));
    double low = step * (Math.floor(least / step) - 1);
    double high = step * (Math.ceil(most / step) + 1);
    for (PassageDelay p : delay.passages()) {
      double doubt = NINETY_FIVE * p.doubtSamples();
      points.add(
          new Chart.Point(
              p.seconds(),
              micro * p.samples(),
              micro * (p.samples() - doubt),
              micro * (p.samples() + doubt)));
    }
    return new Chart(
        "time (s)",
        "delay of right (microseconds)",
        new Chart.Axis(
            0, Math.max(seconds, 1e-3), ticks(0, seconds, Math.max(1, step(seconds)), "%.0f")),
        new Chart.Axis(
            low, high, ticks(low, high, step, step < 0.1 ? "%.2f" : step < 1 ? "%.1f" : "%.0f")),
        List.of(new Chart.Series("passages", false, points)),
        false);
  }

  /** 1, 2 or 5 times a power of ten: two to five of it in a range. */
  private static double step(double range) {
    double power = StrictMath.pow(10, Math.floor(StrictMath.log10(range)));
    double times = range / power;
    return times < 2 ? power / 2 : times < 5 ? power : 2 * power;
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
