package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.LedgerNames;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "restore",
    mixinStandardHelpOptions = true,
    header = "Clean one or more sides; the transfers are only read.",
    description = {
      "",
      "For every side NAME.ext this writes, whole or not at all:",
      "  NAME.restored.wav   the clean copy: same rate, width and chunks",
      "  NAME.ledger.jsonl   every change, and all that is needed to undo it",
      "  NAME.removed.flac   what was taken away, when a stage may touch any sample",
      "  NAME.report.html    one page: what was found and done, pictures, clips",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend restore side.wav",
      "  groovemend restore side.wav --captured riaa --out cleaned",
      "  groovemend restore side.wav --stages clicks            repair only; all else bit for bit",
      "  groovemend restore side.wav --lead-in 0.8-3.1 --noise-db 12",
      "  groovemend restore b-side.wav --groove-of a-side.wav   no bare groove on this side",
      "  groovemend treatment > mine.yaml; groovemend restore *.flac --treatment mine.yaml",
      "",
      "Exit codes: 0 done; 3 some of several sides failed; 4 input refused; 6 output exists; 2 usage.",
      "",
      "Caution: NAME.removed.flac holds loud pops; listen at a low level first."
    })
final class RestoreCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      arity = "1..*",
      paramLabel = "SIDE",
      description = "Transfer of a side: WAV, RF64, BW64, AIFF or FLAC.")
  private List<Path> sides;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for the results; made if missing. Default: beside the side.")
  private Path out;

  @Option(names = "--replace", description = "Write over results of an earlier run.")
  private boolean replace;

  @Option(
      names = "--lead-in",
      paramLabel = "FROM-TO",
      description =
          "Seconds of bare groove before the music, if you know better than the finder, e.g. 0.8-3.1.")
  private String leadIn;

  @Option(
      names = "--groove-of",
      paramLabel = "FILE",
      description =
          "Transfer of another side of the same disc, made in the same way, whose bare groove tells the noise, for"
              + " sides that show none.")
  private Path grooveOf;

  @Option(
      names = "--no-clips",
      description =
          "Leave the clips to listen to out of the page, which is then under a megabyte, not up to 15.")
  private boolean noClips;

  @picocli.CommandLine.Mixin private TreatmentOptions treatment;

  @picocli.CommandLine.Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Treatment chosen = treatment.treatment();
    if (leadIn != null && grooveOf != null) {
      throw new UsageException(
          "--lead-in and --groove-of both say where the bare groove is; give one of them");
    }
    TimeRange stated = leadIn == null ? null : Usage.check(() -> TimeRange.parse(leadIn));
    sides.forEach(Usage::fileName);
    if (grooveOf != null) {
      Usage.fileName(grooveOf);
    }
    requireDifferentNames();
    if (out != null) {
      OutPlace.requireFolder(out);
    }
    PrintWriter text = spec.commandLine().getOut();
    List<Map<String, Object>> results = new ArrayList<>();
    Failures.Failure lastFailure = null;
    int failed = 0;
    boolean interrupted = false;
    try (Hands hands = new Hands(common.threads())) {
      for (Path side : sides) {
        Progress bar = common.progress(Usage.fileName(side));
        try {
          RestoreOutcome outcome =
              Restore.run(
                  new RestoreRequest(
                      side,
                      out == null ? parent(side) : out,
                      chosen,
                      stated,
                      grooveOf,
                      replace,
                      Version.number(),
                      Clock.systemUTC().instant()),
                  hands.crew(),
                  hands.watching(bar),
                  noClips ? ReportWish.WITHOUT_CLIPS : ReportWish.WITH_CLIPS);
          ProgressBar.clear(bar);
          results.add(RestoreView.asMap(outcome));
          if (!common.json()) {
            RestoreView.print(outcome, text);
          }
        } catch (CancellationException stopped) {
          ProgressBar.clear(bar);
          spec.commandLine()
              .getErr()
              .println(
                  "groovemend: interrupted; "
                      + side
                      + " was not finished and nothing of it is left.");
          interrupted = true;
          break;
        } catch (IOException | RuntimeException | OutOfMemoryError e) {
          ProgressBar.clear(bar);
          Failures.Failure told = Failures.describe(e, List.of(side), true);
          failed++;
          lastFailure = told;
          spec.commandLine().getErr().println("groovemend: " + told.sentence());
          if (common.debug()) {
            e.printStackTrace(spec.commandLine().getErr());
          }
          Map<String, Object> result = new LinkedHashMap<>();
          result.put("side", side.toString());
          result.put("error", told.asMap());
          results.add(result);
        }
      }
    }
    if (common.json()) {
      Map<String, Object> all = new LinkedHashMap<>();
      all.put("restore", 1);
      all.put("sides", results);
      Json.print(text, all);
    }
    if (interrupted) {
      return ExitCode.INTERRUPTED;
    }
    if (failed == 0) {
      return ExitCode.DONE;
    }
    return sides.size() == 1 ? lastFailure.exitCode() : ExitCode.PARTLY_FAILED;
  }

  /** Two sides of one command must not write over each other. */
  private void requireDifferentNames() {
    Map<Path, Path> taken = new HashMap<>();
    for (Path side : sides) {
      Path folder = out == null ? parent(side) : out;
      Path result = folder.toAbsolutePath().normalize().resolve(LedgerNames.of(side, 24).ledger());
      Path other = taken.putIfAbsent(result, side);
      if (other != null) {
        throw new UsageException(
            other
                + " and "
                + side
                + " would both write "
                + result.getFileName()
                + "; give them different --out folders, one command each");
      }
    }
  }

  private static Path parent(Path side) {
    Path folder = side.toAbsolutePath().getParent();
    return folder == null ? side.toAbsolutePath().getRoot() : folder;
  }
}
