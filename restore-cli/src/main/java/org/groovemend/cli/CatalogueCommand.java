package org.groovemend.cli;

import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import org.groovemend.batch.Catalogue;
import org.groovemend.batch.CatalogueQuery;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "catalogue",
    mixinStandardHelpOptions = true,
    header = "What is known of every side of a collection; as text, CSV or JSON.",
    description = {
      "",
      "Reads the catalogue that 'groovemend batch' keeps, also while it runs. Conditions choose"
          + " sides:",
      "COLUMN=VALUE, and likewise != < <= > >=, and ~ for a pattern with * and ?; all must hold.",
      "COLUMN= asks for sides without a value. Columns: docs/reference/catalogue.md.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend catalogue cleaned",
      "  groovemend catalogue cleaned state=failed",
      "  groovemend catalogue cleaned edits_per_minute>300 --sort -edits_per_minute --limit 20",
      "  groovemend catalogue cleaned place~shelf/78s/* --csv > sides.csv",
      "  groovemend catalogue cleaned --jsonl > sides.jsonl",
      "  groovemend catalogue cleaned --runs",
      "",
      "Exit codes: 0 done; 2 usage; 1 there is no catalogue, or it cannot be read."
    })
final class CatalogueCommand implements Callable<Integer> {

  /** Columns that hold JSON. */
  private static final Set<String> NESTED = Set.of("facts", "edits_by_stage", "remarks");

  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "DIR", description = "Output folder, or a catalogue in it.")
  private Path folder;

  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "CONDITION",
      description = "Which sides.")
  private List<String> conditions;

  @Option(
      names = "--sort",
      paramLabel = "COLUMN",
      description = "Sort by a column; -COLUMN from high to low. Default: place.")
  private String sort;

  @Option(names = "--limit", paramLabel = "N", description = "At most so many sides.")
  private int limit;

  @Option(names = "--runs", description = "List the runs instead of sides.")
  private boolean runs;

  @Option(names = "--csv", description = "Comma-separated values with a header line.")
  private boolean csv;

  @Option(
      names = "--jsonl",
      description =
          "JSON Lines: one flat object a side, the same keys in each, as table readers want.")
  private boolean jsonl;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @Option(names = "--debug", hidden = true, description = "Print where a failure came from.")
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    if ((csv ? 1 : 0) + (jsonl ? 1 : 0) + (json ? 1 : 0) > 1) {
      throw new UsageException("--csv, --jsonl and --json are three forms; give one of them");
    }
    if (limit < 0) {
      throw new UsageException("--limit " + limit + " is below 0");
    }
    if (runs && (conditions != null || sort != null)) {
      throw new UsageException("--runs lists all runs; conditions and --sort are for sides");
    }
    CatalogueQuery query =
        runs
            ? CatalogueQuery.runs()
            : Usage.check(
                () -> CatalogueQuery.of(conditions == null ? List.of() : conditions, sort, limit));
    Path file = Files.isDirectory(folder) ? folder.resolve(Catalogue.NAME) : folder;
    PrintWriter out = spec.commandLine().getOut();
    try (Catalogue catalogue = Catalogue.read(file)) {
      if (csv) {
        table(catalogue, query, out);
      } else if (jsonl) {
        lines(catalogue, query, out);
      } else if (json) {
        object(catalogue, query, out);
      } else {
        text(catalogue, query, out);
      }
    }
    out.flush();
    return ExitCode.DONE;
  }

  private static void table(Catalogue catalogue, CatalogueQuery query, PrintWriter out)
      throws IOException {
    boolean[] begun = {false};
    catalogue.forEach(
        query,
        row -> {
          if (!begun[0]) {
            begun[0] = true;
            out.print(String.join(",", row.keySet()) + "\r\n");
          }
          List<String> cells = new ArrayList<>();
          row.values().forEach(value -> cells.add(cell(value)));
          out.print(String.join(",", cells) + "\r\n");
        });
    if (!begun[0]) {
      out.print(String.join(",", CatalogueQuery.columns()) + "\r\n");
    }
  }

  /** RFC 4180: quoted where it must be. */
  static String cell(Object value) {
    String text = value == null ? "" : String.valueOf(value);
    return text.matches("(?s).*[\",\r\n].*") ? '"' + text.replace("\"", "\"\"") + '"' : text;
  }

  private static void lines(Catalogue catalogue, CatalogueQuery query, PrintWriter out)
      throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    catalogue.forEach(query, row -> out.print(mapper.writeValueAsString(row) + "\n"));
  }

  private void object(Catalogue catalogue, CatalogueQuery query, PrintWriter out)
      throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    List<Map<String, Object>> rows = new ArrayList<>();
    catalogue.forEach(
        query,
        row -> {
          for (String name : NESTED) {
            if (row.get(name) instanceof String text) {
              row.put(name, mapper.readValue(text, new TypeReference<Object>() {}));
            }
          }
          rows.add(row);
        });
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("catalogue", 1);
    all.put(runs ? "runs" : "sides", rows);
    Json.print(out, all);
  }

  private void text(Catalogue catalogue, CatalogueQuery query, PrintWriter out) throws IOException {
    Map<Object, Integer> states = new LinkedHashMap<>();
    catalogue.forEach(
        query,
        row -> {
          if (runs) {
            out.println(
                row.get("id")
                    + "  "
                    + row.get("started_utc")
                    + "  "
                    + row.get("planned")
                    + " planned, "
                    + (row.get("ended_utc") == null
                        ? "not ended"
                        : row.get("done")
                            + " done, "
                            + row.get("failed")
                            + " failed: "
                            + row.get("outcome")));
            return;
          }
          states.merge(row.get("state"), 1, Integer::sum);
          out.println(
              String.format(Locale.ROOT, "%-7s  %s", row.get("state"), row.get("place"))
                  + (row.get("edits") == null || !"done".equals(row.get("state"))
                      ? ""
                      : "  " + row.get("edits") + " places repaired")
                  + (row.get("error") == null ? "" : "  " + row.get("error")));
        });
    if (!runs) {
      List<String> sums = new ArrayList<>();
      states.forEach((state, count) -> sums.add(count + " " + state));
      out.println(sums.isEmpty() ? "no side" : String.join(", ", sums));
    }
  }
}
