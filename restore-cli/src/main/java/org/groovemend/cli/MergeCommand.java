package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.plays.MergePlays;
import org.groovemend.plays.PlayFinding;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "merge",
    mixinStandardHelpOptions = true,
    header = "Make one transfer of several plays or copies of a side.",
    description = {
      "",
      "The first play gives time, level and format. The others are brought onto it through their",
      "differing speed and wow, weighed by their noise, and where one play alone is damaged the",
      "sound of another stands in: real sound, nothing invented. What is damaged in all of them is",
      "left for restore. OUT.merge.json beside the output tells what came from where. The plays are",
      "only read.",
      "",
      "Caution: every playing wears a disc. Never play a rare one again only to merge.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend merge monday.wav tuesday.wav --out both.wav",
      "  groovemend merge best-copy.wav second.wav third.flac --out copies.flac",
      "",
      "Exit codes: 0 done; 2 usage, or the same file twice; 4 input refused, or no plays of one",
      "performance; 6 output exists."
    })
final class MergeCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "PLAY",
      arity = "1..*",
      description = "Two to eight transfers of one performance, the best first.")
  private List<Path> plays;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      required = true,
      description = "The merged transfer, .wav or .flac.")
  private Path out;

  @Option(names = "--replace", description = "Write over files that exist.")
  private boolean replace;

  @Option(
      names = "--dither-seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of the dither of integer samples. Default: ${DEFAULT-VALUE}.")
  private long seed;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Usage.requireTwoPlays(plays);
    OutPlace.requireFile(out);
    MergePlays.Outcome outcome;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(plays.get(0)));
      try {
        outcome =
            MergePlays.run(
                new MergePlays.Request(plays, out, seed, replace, Version.number(), Instant.now()),
                hands.crew(),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter writer = spec.commandLine().getOut();
    if (common.json()) {
      Json.print(writer, asMap(outcome));
    } else {
      print(outcome, writer);
    }
    return ExitCode.DONE;
  }

  private static Map<String, Object> asMap(MergePlays.Outcome outcome) {
    Map<String, Object> result = new LinkedHashMap<>();
    result.put("merge", 1);
    result.put("file", outcome.out().toString());
    result.put("record", outcome.record().toString());
    result.put("frames", outcome.frames());
    result.put("samplesClipped", outcome.clipped());
    result.put("chunksLeftOut", outcome.leftOut());
    List<Map<String, Object>> all = new ArrayList<>();
    for (int p = 0; p < outcome.names().size(); p++) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("name", outcome.names().get(p));
      one.put("placesReplaced", outcome.replaced().get(p));
      one.put("alignment", CompareCommand.alignment(outcome.alignments().get(p)));
      all.add(one);
    }
    result.put("plays", all);
    result.put("discharges", outcome.discharges());
    result.put("damagedEverywhere", outcome.everywhere());
    result.put("unsure", outcome.unsure());
    return result;
  }

  private static void print(MergePlays.Outcome outcome, PrintWriter out) {
    for (int p = 0; p < outcome.names().size(); p++) {
      PlayFinding a = outcome.alignments().get(p);
      line(
          out,
          outcome.names().get(p),
          p == 0
              ? String.format(
                  Locale.ROOT,
                  "gives time and level; %d damaged places taken from others",
                  outcome.replaced().get(p))
              : String.format(
                  Locale.ROOT,
                  "speed %+.3f %%, sway %.3f %%, map in doubt by %.3f samples; %d damaged places left out",
                  100 * (1 / a.ratio() - 1),
                  a.swayPercent(),
                  a.doubtSamples(),
                  outcome.replaced().get(p)));
    }
    line(
        out,
        "places",
        String.format(
            Locale.ROOT,
            "%d are brief and in both channels, as electric discharges are, and some dust; %d are damaged in all plays in different ways and are left for restore; of %d it is not sure which play is damaged",
            outcome.discharges(),
            outcome.everywhere(),
            outcome.unsure()));
    if (outcome.clipped() > 0) {
      line(
          out,
          "doubt",
          outcome.clipped() + " samples came out above full scale and were set to it");
    }
    if (!outcome.leftOut().isEmpty()) {
      line(out, "left out", "chunks of the first play: " + String.join(", ", outcome.leftOut()));
    }
    line(out, "merged", outcome.out().toString());
    line(out, "record", outcome.record().toString());
    out.flush();
  }

  private static void line(PrintWriter out, String name, String text) {
    out.println(String.format(Locale.ROOT, "  %-15s %s", name, text));
  }
}
