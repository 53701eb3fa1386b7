package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.batch.Catalogue;
import org.groovemend.overview.Overview;
import org.groovemend.overview.OverviewFiles;
import org.groovemend.overview.OverviewRequest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "overview",
    mixinStandardHelpOptions = true,
    header =
        "The morning after: one page of a collection, what failed, the worst first, what to hear.",
    description = {
      "",
      "Reads the catalogue that 'groovemend batch' keeps and writes overview.html and overview.csv",
      "into its folder; each run of 'batch' ends with it. Sides are compared with their series or,",
      "where that is small, with the collection. Which sides to hear is drawn by a sampling plan:",
      "if all of them are good, then with CONFIDENCE fewer than TOLERATED of all sides are bad.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend overview cleaned",
      "  groovemend overview cleaned --tolerated 2 --confidence 99",
      "  groovemend overview cleaned --seed 2       draw other sides",
      "",
      "Exit codes: 0 done; 2 usage; 1 there is no catalogue, or the page cannot be written."
    })
final class OverviewCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "DIR", description = "Output folder of 'groovemend batch'.")
  private Path folder;

  @Option(
      names = "--confidence",
      paramLabel = "PERCENT",
      description = "Of the sample at random. Default: 95.")
  private double confidence = 100 * OverviewRequest.CONFIDENCE;

  @Option(
      names = "--tolerated",
      paramLabel = "PERCENT",
      description = "Share of bad sides that would be too many. Default: 5.")
  private double tolerated = 100 * OverviewRequest.TOLERATED;

  @Option(names = "--seed", paramLabel = "N", description = "Of the draw. Default: 1.")
  private long seed = 1;

  @Option(
      names = "--worst",
      paramLabel = "N",
      description = "Sides listed as the worst, at most. Default: 50.")
  private int worst = OverviewRequest.WORST;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    share("--confidence", confidence, 99.99);
    share("--tolerated", tolerated, 50);
    if (worst < 1 || worst > 1000) {
      throw new UsageException("--worst " + worst + " is not between 1 and 1000");
    }
    Overview overview =
        write(
            new OverviewRequest(
                folder,
                confidence / 100,
                tolerated / 100,
                seed,
                worst,
                OverviewRequest.BY_RISK,
                "groovemend " + Version.number(),
                Clock.systemUTC().instant(),
                OverviewCommand::review));
    PrintWriter out = spec.commandLine().getOut();
    Path page = folder.resolve(OverviewFiles.PAGE);
    if (json) {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("overview", 1);
      map.put("page", page.toString());
      map.put("table", folder.resolve(OverviewFiles.TABLE).toString());
      map.put("sides", overview.done() + overview.failed() + overview.left());
      map.put("done", overview.done());
      map.put("failed", overview.failed());
      map.put("left", overview.left());
      map.put("told", overview.told());
      map.put("hear", overview.plan().heard());
      map.put("tooManyBad", overview.plan().bad());
      map.put("confidence", overview.plan().confidence());
      map.put("seed", seed);
      Json.print(out, map);
    } else {
      out.println(
          String.format(
              Locale.ROOT,
              "%,d sides done, %,d failed, %,d left; %,d to be looked at, %,d to be heard at"
                  + " random",
              overview.done(),
              overview.failed(),
              overview.left(),
              overview.told(),
              overview.plan().heard()));
      out.println("  page   " + page);
      out.println("  table  " + folder.resolve(OverviewFiles.TABLE));
      out.flush();
    }
    return ExitCode.DONE;
  }

  private static void share(String option, double percent, double most) {
    if (!(percent >= 0.1 && percent <= most)) {
      throw new UsageException(option + " " + percent + " is not between 0.1 and " + most);
    }
  }

  private static Overview write(OverviewRequest request) throws IOException {
    if (!Files.isDirectory(request.folder())) {
      throw new UsageException(
          request.folder() + " is no folder; give the output folder of 'groovemend batch'");
    }
    try (Catalogue catalogue = Catalogue.read(request.folder().resolve(Catalogue.NAME))) {
      Overview overview = Overview.of(catalogue, request);
      OverviewFiles.write(overview);
      return overview;
    }
  }

  /** With what 'batch' takes unless others are wanted. */
  static void writeAfter(Catalogue catalogue, Path folder, Instant now) throws IOException {
    OverviewFiles.write(
        Overview.of(
            catalogue,
            new OverviewRequest(
                folder,
                OverviewRequest.CONFIDENCE,
                OverviewRequest.TOLERATED,
                1,
                OverviewRequest.WORST,
                OverviewRequest.BY_RISK,
                "groovemend " + Version.number(),
                now,
                OverviewCommand::review)));
  }

  private static String review(String ledger) {
    return "groovemend review " + Shell.word(ledger);
  }
}
