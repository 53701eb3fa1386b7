package org.groovemend.overview;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.report.CollectionSheet;
import org.groovemend.report.Fact;
import org.groovemend.report.SideTable;
import org.groovemend.report.SideTable.Cell;

/** Puts an overview into words. The page stays small, however large the collection. */
final class OverviewSheet {

  /** Failed sides that are named on the page; the table beside it names all. */
  private static final int MOST_FAILURES = 100;

  private final Overview overview;
  private final OverviewRequest request;

  private OverviewSheet(Overview overview) {
    this.overview = overview;
    this.request = overview.request();
  }

  static CollectionSheet of(Overview overview) {
    OverviewSheet sheet = new OverviewSheet(overview);
    return new CollectionSheet(
        "Overview of a collection",
        String.valueOf(overview.request().folder().toAbsolutePath().normalize().getFileName()),
        sheet.summary(),
        "Made by "
            + overview.request().program()
            + ", "
            + overview.request().now().truncatedTo(ChronoUnit.SECONDS)
            + ". All sides stand in "
            + OverviewFiles.TABLE
            + " beside this page.",
        List.of(sheet.sums(), sheet.failures(), sheet.worst(), sheet.sample(), sheet.spread()));
  }

  private String summary() {
    return String.format(
        Locale.ROOT,
        "%,d of %,d sides are done, %,d failed, %,d are left to do. %,d of those done are unlike"
            + " the rest or have something to be looked at.",
        overview.done(),
        overview.figures().sides().size(),
        overview.failed(),
        overview.left(),
        overview.told());
  }

  private static CollectionSheet.Section section(
      String title, List<String> sentences, List<SideTable> tables) {
    return new CollectionSheet.Section(title, sentences, List.of(), tables, List.of(), List.of());
  }

  private CollectionSheet.Section sums() {
    CollectionFigures figures = overview.figures();
    List<Fact> facts = new ArrayList<>();
    facts.add(Fact.of("Sides in the catalogue", count(figures.sides().size()), ""));
    facts.add(Fact.of("Done", count(overview.done()), ""));
    facts.add(
        new Fact(
            "Failed",
            count(overview.failed()),
            "",
            overview.failed() > 0 ? "The next run tries them again." : ""));
    facts.add(Fact.of("Left to do", count(overview.left()), ""));
    double work = figures.workSeconds() / 3600;
    facts.add(
        new Fact(
            "Sound done",
            lasting(figures.hours()),
            unit(figures.hours()),
            "in " + lasting(work) + " " + unit(work) + " of work of all threads together"));
    facts.add(Fact.of("Repaired places", count(figures.repairs()), ""));
    Map<String, Object> run = figures.lastRun();
    if (!run.isEmpty()) {
      boolean ended = run.get("ended_utc") != null;
      facts.add(
          new Fact(
              "Last run",
              time(run.get("started_utc")),
              "",
              ended
                  ? "ended "
                      + time(run.get("ended_utc"))
                      + " ("
                      + run.get("outcome")
                      + "): "
                      + run.get("done")
                      + " done, "
                      + run.get("failed")
                      + " failed of "
                      + run.get("planned")
                  : "not ended, or it was killed; the same command again goes on"));
    }
    return new CollectionSheet.Section("Sums", List.of(), facts, List.of(), List.of(), List.of());
  }

  private CollectionSheet.Section failures() {
    Map<String, Integer> kinds = new HashMap<>();
    List<List<Cell>> rows = new ArrayList<>();
    for (SideFigures side : overview.figures().sides()) {
      if (!side.state().equals("failed")) {
        continue;
      }
      kinds.merge(String.valueOf(side.errorKind()), 1, Integer::sum);
      if (rows.size() < MOST_FAILURES) {
        rows.add(
            List.of(
                Cell.of(side.place()),
                Cell.of(String.valueOf(side.errorKind())),
                Cell.of(String.valueOf(side.error()))));
      }
    }
    List<String> sentences = new ArrayList<>();
    if (overview.failed() > 0) {
      List<String> parts = new ArrayList<>();
      kinds.forEach((kind, n) -> parts.add(count(n) + " " + kind));
      sentences.add("By kind: " + String.join(", ", parts.stream().sorted().toList()) + ".");
    }
    if (overview.failed() > rows.size()) {
      sentences.add(
          "The first " + rows.size() + " are named; the table beside this page names all.");
    }
    return section(
        "Failures",
        sentences,
        List.of(
            new SideTable(
                "Sides that failed", List.of("Side", "Kind", "Why"), rows, "No side failed.")));
  }

  private CollectionSheet.Section worst() {
    List<List<Cell>> rows = new ArrayList<>();
    for (Comparison.JudgedSide one : overview.comparison().judged()) {
      if (one.risk() <= 0 || rows.size() == request.worst()) {
        break;
      }
      rows.add(row(one));
    }
    List<String> sentences = new ArrayList<>();
    sentences.add(
        String.format(
            Locale.ROOT,
            "A side is told if a measure of it lies more than %.1f robust standard deviations from"
                + " the median of its series (of the collection where the series has fewer than %d"
                + " sides), or if something is to be told whatever the others are. The weight is"
                + " the sum: 1 for what just passes the limit, at most 5 for one measure, 1 for"
                + " each other remark that at most half of the sides have. An outlier is no fault, and what is wrong with most sides"
                + " alike is no outlier: hear the sample too.",
            Measure.LIMIT,
            Comparison.FEWEST));
    if (overview.done() < Comparison.FEWEST) {
      sentences.add(
          "Fewer than "
              + Comparison.FEWEST
              + " sides are done, too few to say what is usual; nothing was compared.");
    }
    if (overview.told() > rows.size()) {
      sentences.add(
          String.format(
              Locale.ROOT, "The worst %,d of %,d are listed.", rows.size(), overview.told()));
    }
    return section(
        "Worst first",
        sentences,
        List.of(
            new SideTable(
                "Sides unlike the rest, the worst first",
                TITLES,
                rows,
                "No side is unlike the rest.")));
  }

  private static final List<String> TITLES =
      List.of("Side", "Weight", "Why", "Repairs a minute", "Noise floor, dBFS", "Review it");

  private List<Cell> row(Comparison.JudgedSide one) {
    SideFigures side = one.side();
    return List.of(
        page(side),
        Cell.of(String.format(Locale.ROOT, "%.1f", one.risk()), one.risk()),
        Cell.of(one.reasons().isEmpty() ? "like the rest" : String.join("; ", one.reasons())),
        number(Measure.REPAIRS, side),
        number(Measure.NOISE, side),
        review(side));
  }

  private static Cell number(Measure measure, SideFigures side) {
    double value = side.value(measure);
    return Double.isFinite(value) ? Cell.of(measure.printed(value), value) : Cell.unknown();
  }

  /** To the page of a side, if it has one. */
  private Cell page(SideFigures side) {
    String file = side.folder() + "/" + side.name() + ".report.html";
    return java.nio.file.Files.isRegularFile(request.folder().resolve(file))
        ? Cell.link(side.place(), file)
        : Cell.of(side.place());
  }

  private Cell review(SideFigures side) {
    return side.ledger() == null
        ? Cell.of("")
        : Cell.command(
            request
                .review()
                .apply(
                    request
                        .folder()
                        .toAbsolutePath()
                        .normalize()
                        .resolve(side.folder())
                        .resolve(side.ledger())
                        .toString()));
  }

  private CollectionSheet.Section sample() {
    SamplingPlan plan = overview.plan();
    List<String> sentences = new ArrayList<>();
    sentences.add(plan.sentence());
    if (plan.sides() > 0) {
      sentences.add(
          String.format(
              Locale.ROOT,
              "Basis: acceptance number 0 and limiting quality, drawn without putting back"
                  + " (hypergeometric distribution), as in textbooks of acceptance sampling and for"
                  + " the purpose of ISO 2859-2; for a collection without end it would be ln(1 -"
                  + " confidence) / ln(1 - share) = %,d sides. Draw: the %,d smallest SHA-256 of"
                  + " seed %d and place; the same seed draws the same sides again.",
              plan.heardOfMany(),
              plan.heard(),
              request.seed()));
    }
    sentences.add(
        "Caution: a side's removed signal holds loud pops; set the level low before you listen to"
            + " it.");
    return section(
        "Hear these",
        sentences,
        List.of(
            new SideTable(
                "By risk: the worst " + overview.risky().size(),
                TITLES,
                overview.risky().stream().map(this::row).toList(),
                "No side is unlike the rest."),
            new SideTable(
                "At random: " + overview.drawn().size() + " drawn",
                TITLES,
                overview.drawn().stream().map(this::row).toList(),
                "No side is done.")));
  }

  private CollectionSheet.Section spread() {
    return new CollectionSheet.Section(
        "How the collection lies",
        List.of(
            "Bars: how many sides have a value; the broken line is the median. Outlined bars lie"
                + " beyond the limits; what lies far beyond is in the first or last bar."),
        List.of(),
        List.of(),
        Spreads.ofSeries(overview.comparison()),
        Spreads.pictures(overview.comparison()));
  }

  /** Below two hours in minutes. */
  private static String lasting(double hours) {
    return String.format(Locale.ROOT, "%,.1f", hours < 2 ? 60 * hours : hours);
  }

  private static String unit(double hours) {
    return hours < 2 ? "minutes" : "hours";
  }

  /** A time of the catalogue (ISO 8601) as people write it. */
  private static String time(Object utc) {
    return Instant.parse(String.valueOf(utc))
        .truncatedTo(ChronoUnit.SECONDS)
        .toString()
        .replace("T", " ")
        .replace("Z", " UTC");
  }

  private static String count(long n) {
    return String.format(Locale.ROOT, "%,d", n);
  }
}
