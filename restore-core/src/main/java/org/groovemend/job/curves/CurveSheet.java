package org.groovemend.job.curves;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.groovemend.delivery.WholeFile;
import org.groovemend.job.side.FrequencyChart;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.playback.ChosenCurve;
import org.groovemend.playback.FilterFit;
import org.groovemend.playback.NamedCurve;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.report.Chart;
import org.groovemend.report.Pictures;

/** Playback curves as numbers, pictures and coefficients. */
public final class CurveSheet {

  /** Nominal third octaves of IEC 61260-1. */
  public static final List<Double> THIRD_OCTAVES =
      List.of(
          20.0, 25.0, 31.5, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0,
          500.0, 630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3150.0, 4000.0, 5000.0,
          6300.0, 8000.0, 10_000.0, 12_500.0, 16_000.0, 20_000.0);

  private static final double STEP_DB = 5;
  private static final String GAIN = "gain (dB re 1 kHz)";

  /** Most curves in one picture. */
  public static final int MOST_DRAWN = 4;

  private CurveSheet() {}

  /** Gain re 1 kHz at the third octaves. */
  public static List<Double> decibels(ChosenCurve chosen) {
    return THIRD_OCTAVES.stream().map(chosen.curve()::gainDb).toList();
  }

  /**
   * A curve for machines.
   *
   * @param sampleRateHz rate of the coefficients, or 0 for none
   */
  public static Map<String, Object> asMap(ChosenCurve chosen, int sampleRateHz) {
    Map<String, Object> map = head(chosen);
    List<Map<String, Object>> table = new ArrayList<>();
    List<Double> gains = decibels(chosen);
    for (int i = 0; i < gains.size(); i++) {
      Map<String, Object> row = new LinkedHashMap<>();
      row.put("hertz", THIRD_OCTAVES.get(i));
      row.put("db", gains.get(i));
      table.add(row);
    }
    map.put("thirdOctaves", table);
    if (sampleRateHz > 0) {
      PlaybackFilter filter = PlaybackFilter.design(chosen.curve(), sampleRateHz);
      Map<String, Object> digital = new LinkedHashMap<>();
      digital.put("sampleRateHz", sampleRateHz);
      digital.put("fit", FilterFit.of(chosen.curve(), sampleRateHz, 1000));
      digital.put("apply", filter.forwardSections());
      digital.put("undo", filter.inverseSections());
      map.put("digital", digital);
    }
    return map;
  }

  /** Name and constants. */
  public static Map<String, Object> head(ChosenCurve chosen) {
    PlaybackCurve curve = chosen.curve();
    NamedCurve named = chosen.named();
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("curve", chosen.text());
    map.put("name", named == null ? null : named.name());
    map.put("groove", named == null ? null : named.groove());
    map.put("highPassMicroseconds", orNull(curve.highPassMicroseconds()));
    map.put("shelfMicroseconds", orNull(curve.shelfMicroseconds()));
    map.put("turnoverMicroseconds", orNull(curve.turnoverMicroseconds()));
    map.put("trebleMicroseconds", orNull(curve.trebleMicroseconds()));
    map.put("shelfHertz", orNull(PlaybackCurve.hertz(curve.shelfMicroseconds())));
    map.put("turnoverHertz", orNull(PlaybackCurve.hertz(curve.turnoverMicroseconds())));
    map.put("rollOffDb", PlaybackCurve.rollOffDb(curve.trebleMicroseconds()));
    if (named != null) {
      map.put("known", named.status().words());
      map.put("source", named.source());
      map.put("doubt", named.doubt());
    }
    return map;
  }

  private static Double orNull(double value) {
    return value == 0 ? null : value;
  }

  /** Gain over frequency, all curves in one chart. */
  static Chart chart(List<ChosenCurve> curves) {
    return FrequencyChart.of(
        GAIN, STEP_DB, series(curves, c -> c.text() + ": " + c.constantsInWords()));
  }

  /** The same for a panel beside another. */
  static Chart panel(List<ChosenCurve> curves) {
    return FrequencyChart.panel(GAIN, STEP_DB, series(curves, ChosenCurve::text));
  }

  private static List<Chart.Series> series(
      List<ChosenCurve> curves, Function<ChosenCurve, String> name) {
    List<Chart.Series> series = new ArrayList<>();
    for (ChosenCurve chosen : curves) {
      List<Chart.Point> points = new ArrayList<>();
      for (double hertz : THIRD_OCTAVES) {
        points.add(FrequencyChart.point(hertz, chosen.curve().gainDb(hertz)));
      }
      series.add(new Chart.Series(name.apply(chosen), true, points));
    }
    return series;
  }

  /**
   * Draws curves.
   *
   * @param png file to write, or null
   * @param svg the same
   * @throws RequestRefusedException if there are too many to be told apart
   * @throws org.groovemend.delivery.OutputExistsException if a file is there and may not be
   *     replaced
   */
  public static void draw(List<ChosenCurve> curves, Path png, Path svg, boolean replace)
      throws IOException {
    requireFew(curves);
    if (png != null) {
      WholeFile.write(png, Pictures.chart(chart(curves)), replace, List.of());
    }
    if (svg != null) {
      WholeFile.write(
          svg,
          Pictures.chartVector(chart(curves)).getBytes(StandardCharsets.UTF_8),
          replace,
          List.of());
    }
  }

  static void requireFew(List<ChosenCurve> curves) {
    if (curves.isEmpty() || curves.size() > MOST_DRAWN) {
      throw new RequestRefusedException(
          curves.size() + " curves in one picture: name one to " + MOST_DRAWN);
    }
  }
}
