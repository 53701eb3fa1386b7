package org.groovemend.overview;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Every side against its like.
 *
 * @param whole how each measure lies in the whole collection, by {@link Measure#ordinal}
 * @param series the same for each series of at least {@value #FEWEST} sides
 * @param judged all sides that are done, the worst first
 */
record Comparison(Spread[] whole, Map<String, Spread[]> series, List<JudgedSide> judged) {

  /** Fewer sides tell nothing of what is usual (our own choice; no published source). */
  static final int FEWEST = 12;

  /**
   * A side as compared.
   *
   * @param side of which
   * @param scores by {@link Measure#ordinal}: robust standard deviations from the median of its
   *     like; NaN if not known
   * @param ofSeries whether its like is its series; else the collection
   * @param risk sum over what is told: 0 for a side like all others
   * @param reasons sentences, the gravest first
   */
  record JudgedSide(
      SideFigures side, double[] scores, boolean ofSeries, double risk, List<String> reasons) {}

  static Comparison of(List<SideFigures> sides) {
    List<SideFigures> done = sides.stream().filter(SideFigures::done).toList();
    Map<String, List<SideFigures>> bySeries = new HashMap<>();
    for (SideFigures side : done) {
      bySeries.computeIfAbsent(side.series(), s -> new ArrayList<>()).add(side);
    }
    Spread[] whole = spreads(done);
    Map<String, Spread[]> series = new TreeMap<>();
    bySeries.forEach(
        (name, members) -> {
          if (members.size() >= FEWEST && bySeries.size() > 1 && !name.isEmpty()) {
            series.put(name, spreads(members));
          }
        });
    Set<String> common = common(done);
    List<JudgedSide> judged = new ArrayList<>(done.size());
    for (SideFigures side : done) {
      judged.add(judge(side, series.get(side.series()), whole, common));
    }
    judged.sort(
        Comparator.comparingDouble(JudgedSide::risk)
            .reversed()
            .thenComparing(one -> one.side().place()));
    return new Comparison(whole, series, judged);
  }

  private static Spread[] spreads(List<SideFigures> sides) {
    Spread[] spreads = new Spread[Measure.values().length];
    for (Measure measure : Measure.values()) {
      double[] values =
          sides.stream()
              .mapToDouble(side -> side.value(measure))
              .filter(Double::isFinite)
              .map(measure::scaled)
              .toArray();
      spreads[measure.ordinal()] = Spread.of(values, measure.leastSpread());
    }
    return spreads;
  }

  /** Notes of more than half of the sides, which tell none from the others. */
  private static Set<String> common(List<SideFigures> sides) {
    Map<String, Integer> counts = new HashMap<>();
    sides.forEach(side -> side.notes().forEach(note -> counts.merge(note, 1, Integer::sum)));
    counts.values().removeIf(n -> sides.size() < FEWEST || 2 * n <= sides.size());
    return counts.keySet();
  }

  private record Reason(double risk, String sentence) {}

  private static JudgedSide judge(
      SideFigures side, Spread[] series, Spread[] whole, Set<String> common) {
    double[] scores = new double[whole.length];
    Arrays.fill(scores, Double.NaN);
    List<Reason> reasons = new ArrayList<>();
    for (Measure measure : Measure.values()) {
      int i = measure.ordinal();
      boolean enough = series != null && series[i].count() >= FEWEST;
      Spread like = enough ? series[i] : whole[i];
      double value = side.value(measure);
      if (like.count() < FEWEST || !Double.isFinite(value)) {
        continue;
      }
      scores[i] = like.score(measure.scaled(value));
      if (measure.tells(scores[i], side, like.median())) {
        reasons.add(new Reason(measure.risk(scores[i]), measure.sentence(scores[i], value)));
      }
    }
    for (String note : side.notes()) {
      reasons.add(new Reason(common.contains(note) ? 0 : 1, note));
    }
    reasons.sort(Comparator.comparingDouble(Reason::risk).reversed());
    double risk = reasons.stream().mapToDouble(Reason::risk).sum();
    return new JudgedSide(
        side, scores, series != null, risk, reasons.stream().map(Reason::sentence).toList());
  }

  /** How many sides have something to be told. */
  long told() {
    return judged.stream().filter(one -> one.risk() > 0).count();
  }
}
