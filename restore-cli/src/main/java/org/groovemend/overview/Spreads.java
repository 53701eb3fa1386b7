package org.groovemend.overview;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.groovemend.report.Histogram;
import org.groovemend.report.NumberTable;

/** How the measures of a collection lie, as pictures and numbers. */
final class Spreads {

  private static final int BARS = 30;

  /** Series that are told by numbers. */
  private static final int MOST_SERIES = 20;

  /** How far beyond the limit a picture reaches; what lies farther is in its last bar. */
  private static final double REACH = 1.5 * Measure.LIMIT;

  private Spreads() {}

  static List<Histogram> pictures(Comparison comparison) {
    List<Histogram> pictures = new ArrayList<>();
    for (Measure measure : Measure.values()) {
      Spread spread = comparison.whole()[measure.ordinal()];
      if (spread.count() >= Comparison.FEWEST) {
        pictures.add(picture(measure, spread, comparison));
      }
    }
    return pictures;
  }

  private static Histogram picture(Measure measure, Spread spread, Comparison comparison) {
    double least = spread.median();
    double most = spread.median();
    for (Comparison.JudgedSide one : comparison.judged()) {
      double value = one.side().value(measure);
      if (Double.isFinite(value)) {
        least = Math.min(least, measure.scaled(value));
        most = Math.max(most, measure.scaled(value));
      }
    }
    double low = Math.max(least, spread.median() - REACH * spread.spread());
    double high = Math.min(most, spread.median() + REACH * spread.spread());
    if (!(high > low)) {
      low -= spread.spread();
      high += spread.spread();
    }
    long[] counts = new long[BARS];
    long beyond = 0;
    for (Comparison.JudgedSide one : comparison.judged()) {
      double value = one.side().value(measure);
      if (Double.isFinite(value)) {
        double scaled = measure.scaled(value);
        int bar = (int) ((scaled - low) / (high - low) * BARS);
        counts[Math.max(0, Math.min(BARS - 1, bar))]++;
        beyond += Math.abs(spread.score(scaled)) > Measure.LIMIT ? 1 : 0;
      }
    }
    List<Double> edges = new ArrayList<>();
    List<Boolean> outside = new ArrayList<>();
    for (int i = 0; i <= BARS; i++) {
      edges.add(low + i * (high - low) / BARS);
    }
    for (int i = 0; i < BARS; i++) {
      double middle = (edges.get(i) + edges.get(i + 1)) / 2;
      outside.add(Math.abs(spread.score(middle)) > Measure.LIMIT);
    }
    String words =
        String.format(
            Locale.ROOT,
            "Of %,d sides half lie below %s; %,d lie beyond the limits %s and %s.",
            spread.count(),
            measure.printed(measure.unscaled(spread.median())),
            beyond,
            measure.printed(measure.unscaled(spread.median() - Measure.LIMIT * spread.spread())),
            measure.printed(measure.unscaled(spread.median() + Measure.LIMIT * spread.spread())));
    return new Histogram(
        measure.title(),
        edges,
        List.of(
            measure.printed(measure.unscaled(low)),
            measure.printed(measure.unscaled((low + high) / 2)),
            measure.printed(measure.unscaled(high))),
        Arrays.stream(counts).boxed().toList(),
        outside,
        spread.median(),
        words);
  }

  /** Medians of each series, largest first. */
  static List<NumberTable> ofSeries(Comparison comparison) {
    if (comparison.series().isEmpty()) {
      return List.of();
    }
    List<String> titles = new ArrayList<>(List.of("Series", "Sides"));
    for (Measure measure : Measure.values()) {
      titles.add(measure.title());
    }
    int sides = Measure.LENGTH.ordinal();
    List<List<String>> rows = new ArrayList<>();
    comparison.series().entrySet().stream()
        .sorted((a, b) -> Integer.compare(b.getValue()[sides].count(), a.getValue()[sides].count()))
        .limit(MOST_SERIES)
        .forEach(
            one -> {
              List<String> row = new ArrayList<>();
              row.add(one.getKey());
              row.add(String.format(Locale.ROOT, "%,d", one.getValue()[sides].count()));
              for (Measure measure : Measure.values()) {
                double median = one.getValue()[measure.ordinal()].median();
                row.add(Double.isNaN(median) ? "–" : measure.printed(measure.unscaled(median)));
              }
              rows.add(row);
            });
    String more =
        comparison.series().size() > MOST_SERIES
            ? "The " + MOST_SERIES + " largest of " + comparison.series().size() + " series."
            : "";
    return List.of(new NumberTable("Median of each series", titles, rows, more));
  }
}
