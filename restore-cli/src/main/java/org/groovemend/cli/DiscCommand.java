package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.job.disc.Disc;
import org.groovemend.job.disc.DiscOutcome;
import org.groovemend.job.disc.DiscRequest;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.Scratch;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "disc",
    mixinStandardHelpOptions = true,
    header = "Draw the repairs of a side as the disc lies; tell scratches and turntable speed.",
    description = {
      "",
      "Angle against radius, seen from above: a scratch appears where a person sees it on the",
      "disc. The speed of the turntable is told from the repairs themselves, if rows of them recur",
      "once a turn; if not, nothing is drawn until --rpm states it: with a wrong speed every shape",
      "in the picture would be an invention.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend disc side.ledger.jsonl                 writes side.disc.png beside it",
      "  groovemend disc side.ledger.jsonl --rpm 33.333 --png scratches.png",
      "  groovemend disc side.ledger.jsonl --json",
      "",
      "Exit codes: 0 done; 2 the speed is not known; 4 no such ledger; 6 the picture exists."
    })
final class DiscCommand implements Callable<Integer> {

  private static final int SCRATCHES_SHOWN = 20;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "LEDGER", description = "Ledger file, NAME.ledger.jsonl.")
  private Path ledger;

  @Option(
      names = "--png",
      paramLabel = "FILE",
      description = "The picture to write. Default: NAME.disc.png beside the ledger.")
  private Path png;

  @Option(
      names = "--rpm",
      paramLabel = "N",
      description =
          "Turns a minute, 15 to 100, such as 33.333, 45 or 78.26. Default: told from the repairs.")
  private Double rpm;

  @Option(names = "--replace", description = "Write over the picture if it exists.")
  private boolean replace;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws IOException {
    Path file = LedgerOptions.requireLedger(ledger);
    if (png != null) {
      OutPlace.requireFile(png, "--png");
    }
    if (rpm != null && rpm.isNaN()) {
      throw new UsageException("--rpm NaN is no speed; give turns a minute, such as 33.333");
    }
    DiscOutcome outcome =
        Disc.run(new DiscRequest(file, png, rpm == null ? Double.NaN : rpm, replace));
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      Json.print(out, asMap(outcome));
    } else {
      print(outcome, out);
    }
    return ExitCode.DONE;
  }

  private static void print(DiscOutcome outcome, PrintWriter out) {
    RotationFinding rotation = outcome.rotation();
    out.println(outcome.picture());
    if (rotation.found()) {
      out.println(
          "Turntable: "
              + rotation.speedInWords()
              + " from the repairs themselves, "
              + rotation.chanceInWords()
              + ".");
    } else {
      out.println("Nothing recurs once a turn at this speed, " + rotation.chanceInWords() + ".");
    }
    if (outcome.stated()) {
      out.println(String.format(Locale.ROOT, "Drawn at %.3f rpm, as stated.", outcome.rpm()));
    }
    out.println(
        "Scratches: "
            + rotation.scratches().size()
            + (rotation.scratches().isEmpty() ? "." : ", angles from the mark at the top."));
    int shown = 0;
    for (Scratch scratch : rotation.scratches()) {
      if (shown++ == SCRATCHES_SHOWN) {
        out.println("  ... " + (rotation.scratches().size() - SCRATCHES_SHOWN) + " more");
        break;
      }
      out.println(
          String.format(
              Locale.ROOT,
              "  %s to %s  %4d turns, %4d ticks, at %3.0f degrees, %+.2f degrees a turn",
              EditsCommand.time(seconds(outcome, scratch.firstFrame())),
              EditsCommand.time(seconds(outcome, scratch.lastFrame())),
              scratch.turns(),
              scratch.frames().size(),
              scratch.angleDegrees(),
              scratch.driftDegreesPerTurn()));
    }
    out.println(
        String.format(
            Locale.ROOT,
            "Assumed: %s, the side fills it from %.1f to %.1f mm radius at constant pitch.",
            outcome.disc(),
            outcome.outerMm(),
            outcome.innerMm()));
    out.flush();
  }

  private static double seconds(DiscOutcome outcome, long frame) {
    return frame / (double) outcome.sampleRateHz();
  }

  private static Map<String, Object> asMap(DiscOutcome outcome) {
    RotationFinding rotation = outcome.rotation();
    Map<String, Object> result = new LinkedHashMap<>();
    result.put("disc", 1);
    result.put("picture", outcome.picture().toString());
    result.put("drawnAtRpm", outcome.rpm());
    result.put("rpmStated", outcome.stated());
    Map<String, Object> found = new LinkedHashMap<>();
    found.put("found", rotation.found());
    found.put("rpm", rotation.rpm());
    found.put("turnSeconds", rotation.turnSeconds());
    found.put("chance", rotation.chance());
    found.put("places", rotation.places());
    found.put("placesWeighed", rotation.placesWeighed());
    result.put("turntable", found);
    List<Map<String, Object>> scratches = new ArrayList<>();
    for (Scratch scratch : rotation.scratches()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("firstSeconds", seconds(outcome, scratch.firstFrame()));
      one.put("lastSeconds", seconds(outcome, scratch.lastFrame()));
      one.put("turns", scratch.turns());
      one.put("angleDegrees", scratch.angleDegrees());
      one.put("driftDegreesPerTurn", scratch.driftDegreesPerTurn());
      one.put("frames", scratch.frames());
      scratches.add(one);
    }
    result.put("scratches", scratches);
    Map<String, Object> assumed = new LinkedHashMap<>();
    assumed.put("disc", outcome.disc());
    assumed.put("outerRadiusMm", outcome.outerMm());
    assumed.put("innerRadiusMm", outcome.innerMm());
    result.put("assumed", assumed);
    return result;
  }
}
