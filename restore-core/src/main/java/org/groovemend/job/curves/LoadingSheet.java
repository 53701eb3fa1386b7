package org.groovemend.job.curves;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.groovemend.cartridge.LoadCorrection;
import org.groovemend.cartridge.LoadedCoil;
import org.groovemend.delivery.WholeFile;
import org.groovemend.job.side.FrequencyChart;
import org.groovemend.report.Chart;
import org.groovemend.report.Pictures;

/** What a load does to the treble, as a picture. */
public final class LoadingSheet {

  /** Where it is told. */
  public static final List<Double> HERTZ =
      List.of(
          20.0, 1000.0, 2000.0, 3150.0, 4000.0, 5000.0, 6300.0, 8000.0, 10_000.0, 12_000.0,
          15_000.0, 18_000.0, 20_000.0);

  private static final double FROM_HERTZ = 800;
  private static final double STEP = 1.122;
  private static final double MOST_HERTZ = 21_000;
  private static final double STEP_DB = 2;

  private LoadingSheet() {}

  /**
   * Draws the response, and with a correction the ideal one and what is given.
   *
   * @param correction or null
   * @throws org.groovemend.delivery.OutputExistsException if the file is there and may not be
   *     replaced
   */
  public static void draw(LoadedCoil actual, LoadCorrection correction, Path png, boolean replace)
      throws IOException {
    List<Chart.Series> series = new ArrayList<>();
    series.add(series("captured, " + load(actual), actual::gainDb));
    if (correction != null) {
      series.add(series("ideal, " + load(correction.ideal()), correction.ideal()::gainDb));
      series.add(series("correction", correction::gainDb));
    }
    WholeFile.write(
        png,
        Pictures.chart(FrequencyChart.of("gain (dB re 1 kHz)", STEP_DB, series)),
        replace,
        List.of());
  }

  private static String load(LoadedCoil coil) {
    return String.format(
        Locale.ROOT, "%.4g kohm and %.4g pF", coil.loadOhms() / 1e3, 1e12 * coil.farad());
  }

  private static Chart.Series series(String name, DoubleUnaryOperator gainDb) {
    List<Chart.Point> points = new ArrayList<>();
    for (double hertz = FROM_HERTZ; hertz < MOST_HERTZ; hertz *= STEP) {
      points.add(FrequencyChart.point(hertz, gainDb.applyAsDouble(hertz)));
    }
    return new Chart.Series(name, true, points);
  }
}
