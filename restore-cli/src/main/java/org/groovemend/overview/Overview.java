package org.groovemend.overview;

import java.io.IOException;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.groovemend.batch.Catalogue;

/**
 * An overview in figures.
 *
 * @param request what was wanted
 * @param figures of all sides
 * @param comparison of those done
 * @param plan of the sample at random
 * @param drawn the sample, in the order of the draw
 * @param risky the worst, which are to be heard too
 */
public record Overview(
    OverviewRequest request,
    CollectionFigures figures,
    Comparison comparison,
    SamplingPlan plan,
    List<Comparison.JudgedSide> drawn,
    List<Comparison.JudgedSide> risky) {

  /** Reads the catalogue. */
  public static Overview of(Catalogue catalogue, OverviewRequest request) throws IOException {
    CollectionFigures figures = CollectionFigures.of(catalogue);
    Comparison comparison = Comparison.of(figures.sides());
    List<Comparison.JudgedSide> judged = comparison.judged();
    SamplingPlan plan = SamplingPlan.of(judged.size(), request.confidence(), request.tolerated());
    List<Comparison.JudgedSide> drawn =
        plan.draw(judged.stream().map(one -> one.side().place()).toList(), request.seed()).stream()
            .map(judged::get)
            .toList();
    List<Comparison.JudgedSide> risky =
        judged.stream().filter(one -> one.risk() > 0).limit(request.byRisk()).toList();
    return new Overview(request, figures, comparison, plan, drawn, risky);
  }

  /** Sides done. */
  public int done() {
    return comparison.judged().size();
  }

  /** Sides that failed. */
  public int failed() {
    return figures.count("failed");
  }

  /** Sides that wait or were begun. */
  public int left() {
    return figures.count("waiting") + figures.count("running");
  }

  /** Sides of which something is told. */
  public long told() {
    return comparison.told();
  }

  /** Whether a side is drawn. */
  Set<String> places(List<Comparison.JudgedSide> sides) {
    Set<String> places = new HashSet<>();
    sides.forEach(one -> places.add(one.side().place()));
    return places;
  }
}
