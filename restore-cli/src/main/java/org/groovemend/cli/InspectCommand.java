package org.groovemend.cli;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import org.groovemend.chain.Progress;
import org.groovemend.job.inspect.Inspect;
import org.groovemend.job.inspect.InspectRequest;
import org.groovemend.job.inspect.InspectionPage;
import org.groovemend.job.inspect.SideInspection;
import org.groovemend.limits.Judgement;
import org.groovemend.limits.LimitProfile;
import org.groovemend.playback.CaptureCurve;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "inspect",
    mixinStandardHelpOptions = true,
    header = "Say what a transfer is and whether it can be trusted, judged by limits.",
    description = {
      "",
      "Format, completeness, interruptions, repeated turns, levels, clipping, offset, empty bits, band,",
      "noise, hum, rumble, walls, ticks, turntable, wow, tuning: each with its limit and a verdict,",
      "fine, look, redo or unknown. The files are only read; nothing is written but pages asked for.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend inspect side.wav",
      "  groovemend inspect side.wav --limits shellac --page checked",
      "  groovemend inspect side.wav --captured riaa --json",
      "  groovemend inspect --print-limits shellac",
      "",
      "Exit codes: 0 done, nobody is needed; 7 done, a person should look or the transfer should be made",
      "again; 2 usage; 3 some of several sides failed; 4 input refused; 6 a page exists."
    })
final class InspectCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "SIDE",
      arity = "0..*",
      description = "Transfers of sides: WAV, RF64, BW64, AIFF or FLAC.")
  private List<Path> sides = new ArrayList<>();

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      defaultValue = "unknown",
      description =
          "How the transfer was made: riaa or another curve of 'groovemend curve', flat, or unknown (its clicks are asked). Default: ${DEFAULT-VALUE}.")
  private String captured;

  @Option(
      names = "--limits",
      paramLabel = "NAME|FILE",
      defaultValue = "general",
      description =
          "Limits to judge by: general, shellac, microgroove, lacquer, or a YAML file. Default: ${DEFAULT-VALUE}.")
  private String limits;

  @Option(
      names = "--print-limits",
      paramLabel = "NAME",
      description = "Print limits that come with the program, to be changed, and stop.")
  private String printLimits;

  @Option(
      names = "--page",
      paramLabel = "PLACE",
      description =
          "Write a page with pictures for each side, and its pictures as one PNG: a folder, or for one side a file that ends in .html.")
  private Path page;

  @Option(names = "--replace", description = "Write over pages that exist.")
  private boolean replace;

  @Option(names = "--all", description = "Print what is fine as well, and why.")
  private boolean all;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    PrintWriter out = spec.commandLine().getOut();
    if (printLimits != null) {
      return print(out);
    }
    check();
    CaptureCurve curve = Usage.check(() -> TreatmentOptions.captured(captured));
    LimitProfile profile = LimitsFile.of(limits);
    List<JsonNode> told = new ArrayList<>();
    Judgement gravest = Judgement.FINE;
    int failed = 0;
    try (Hands hands = new Hands(common.threads())) {
      for (Path side : sides) {
        try {
          SideInspection found = inspect(side, curve, profile, hands);
          gravest = gravest.or(found.verdict());
          if (common.json()) {
            told.add(InspectionView.json(found));
          } else {
            InspectionView.print(found, curve, all, out);
          }
        } catch (IOException | RuntimeException | OutOfMemoryError e) {
          if (sides.size() == 1 || e instanceof CancellationException) {
            throw e;
          }
          failed++;
          told.add(failure(side, e));
        }
      }
    }
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("inspect", 1);
      if (sides.size() == 1) {
        result.put("side", told.get(0));
      } else {
        result.put("sides", told);
      }
      Json.print(out, result);
    }
    boolean person = gravest == Judgement.LOOK || gravest == Judgement.REDO;
    return failed > 0 ? ExitCode.PARTLY_FAILED : person ? ExitCode.PERSON_NEEDED : ExitCode.DONE;
  }

  private SideInspection inspect(Path side, CaptureCurve curve, LimitProfile profile, Hands hands)
      throws IOException {
    Progress bar = common.progress(Usage.fileName(side));
    try {
      Inspect.Outcome outcome =
          Inspect.run(
              new InspectRequest(side, curve, profile, page != null),
              hands.crew(),
              hands.watching(bar));
      if (page != null) {
        InspectionPage.write(
            outcome, side, pageOf(side), replace, "groovemend " + Version.number());
      }
      return outcome.side();
    } finally {
      ProgressBar.clear(bar);
    }
  }

  private JsonNode failure(Path side, Throwable e) {
    Failures.Failure failure = Failures.describe(e, List.of(side), true, "--page");
    spec.commandLine().getErr().println("groovemend: " + failure.sentence());
    if (common.debug()) {
      e.printStackTrace(spec.commandLine().getErr());
    }
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("file", Map.of("name", Usage.fileName(side)));
    map.put("error", failure.asMap());
    return Json.tree(map);
  }

  private int print(PrintWriter out) {
    if (!LimitsFile.BUILT_IN.contains(printLimits)) {
      throw new UsageException(
          "there are no limits \""
              + printLimits
              + "\""
              + Nearest.hint(printLimits, LimitsFile.BUILT_IN)
              + "; there are "
              + String.join(", ", LimitsFile.BUILT_IN));
    }
    out.print(LimitsFile.text(printLimits));
    out.flush();
    return ExitCode.DONE;
  }

  /** What can be said before any work begins. */
  private void check() throws IOException {
    if (sides.isEmpty()) {
      throw new UsageException("name at least one side to inspect, such as side.wav");
    }
    for (int i = 0; i < sides.size(); i++) {
      Usage.fileName(sides.get(i));
      for (int j = 0; j < i; j++) {
        if (same(sides.get(i), sides.get(j))) {
          throw new UsageException(
              sides.get(i) + " and " + sides.get(j) + " are the same file; name each side once");
        }
        if (page != null && pageOf(sides.get(i)).equals(pageOf(sides.get(j)))) {
          throw new UsageException(
              sides.get(i)
                  + " and "
                  + sides.get(j)
                  + " would have the same page; inspect them one by one, with a --page of their own");
        }
      }
    }
    if (page != null) {
      if (isFile()) {
        if (sides.size() > 1) {
          throw new UsageException(
              page + " is one page, but several sides are named; give a folder");
        }
        OutPlace.requireFile(page, "--page");
      } else {
        OutPlace.requireFolder(page, "--page");
      }
    }
  }

  private static boolean same(Path a, Path b) throws IOException {
    return a.equals(b) || Files.exists(a) && Files.exists(b) && Files.isSameFile(a, b);
  }

  private boolean isFile() {
    return page.toString().endsWith(".html") && !Files.isDirectory(page);
  }

  private Path pageOf(Path side) {
    return isFile()
        ? page
        : page.resolve(Usage.fileName(side).replaceFirst("\\.[^.]*$", "") + ".inspection.html");
  }
}
