package org.groovemend.overview;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.groovemend.delivery.OutputSet;
import org.groovemend.report.CollectionPage;

/** Page and table of an overview, in the output folder of the collection. */
public final class OverviewFiles {

  /** The page. */
  public static final String PAGE = "overview.html";

  /** All sides, RFC 4180. */
  public static final String TABLE = "overview.csv";

  private OverviewFiles() {}

  /** Writes both anew; they appear together or not at all. */
  public static void write(Overview overview) throws IOException {
    try (OutputSet set = OutputSet.open(overview.request().folder(), List.of(TABLE, PAGE), true)) {
      try (Writer out = writer(set, TABLE)) {
        table(overview, out);
      }
      try (Writer out = writer(set, PAGE)) {
        CollectionPage.write(OverviewSheet.of(overview), out);
      }
      set.commit();
    }
  }

  private static Writer writer(OutputSet set, String name) throws IOException {
    return new BufferedWriter(
        new OutputStreamWriter(set.create(name), StandardCharsets.UTF_8), 1 << 16);
  }

  private static void table(Overview overview, Writer out) throws IOException {
    List<String> titles =
        new ArrayList<>(
            List.of(
                "place",
                "disc",
                "side",
                "series",
                "state",
                "error_kind",
                "error",
                "weight",
                "reasons",
                "hear",
                "compared_with"));
    for (Measure measure : Measure.values()) {
      titles.add(measure.key());
      titles.add(measure.key() + "_score");
    }
    titles.addAll(List.of("ledger", "page"));
    line(titles, out);
    Set<String> drawn = overview.places(overview.drawn());
    Set<String> risky = overview.places(overview.risky());
    Map<String, Comparison.JudgedSide> judged = new HashMap<>();
    overview.comparison().judged().forEach(one -> judged.put(one.side().place(), one));
    List<String> cells = new ArrayList<>(titles.size());
    for (SideFigures side : overview.figures().sides()) {
      Comparison.JudgedSide one = judged.get(side.place());
      cells.clear();
      cells.add(side.place());
      cells.add(side.disc());
      cells.add(side.side());
      cells.add(side.series());
      cells.add(side.state());
      cells.add(side.errorKind());
      cells.add(side.error());
      cells.add(one == null ? "" : number(one.risk()));
      cells.add(one == null ? "" : String.join("; ", one.reasons()));
      String hear =
          (risky.contains(side.place()) ? "risk " : "")
              + (drawn.contains(side.place()) ? "random" : "");
      cells.add(hear.strip());
      cells.add(one == null ? "" : one.ofSeries() ? "series" : "collection");
      for (Measure measure : Measure.values()) {
        cells.add(number(side.value(measure)));
        cells.add(one == null ? "" : number(one.scores()[measure.ordinal()]));
      }
      cells.add(side.ledger() == null ? "" : side.folder() + "/" + side.ledger());
      cells.add(side.folder() + "/" + side.name() + ".report.html");
      line(cells, out);
    }
  }

  private static String number(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.4g", value) : "";
  }

  private static void line(List<String> cells, Writer out) throws IOException {
    for (int i = 0; i < cells.size(); i++) {
      if (i > 0) {
        out.write(',');
      }
      String text = cells.get(i);
      if (text != null) {
        out.write(cell(text));
      }
    }
    out.write("\r\n");
  }

  /** Quoted where it must be. */
  private static String cell(String text) {
    for (int i = 0; i < text.length(); i++) {
      if ("\",\r\n".indexOf(text.charAt(i)) >= 0) {
        return '"' + text.replace("\"", "\"\"") + '"';
      }
    }
    return text;
  }
}
