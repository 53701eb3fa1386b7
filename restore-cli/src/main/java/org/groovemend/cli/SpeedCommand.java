package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.speed.SpeedCopy;
import org.groovemend.job.speed.SpeedSurvey;
import org.groovemend.job.speed.SpeedWords;
import org.groovemend.speed.SpeedEvidence;
import org.groovemend.speed.SpeedFinding;
import org.groovemend.speed.SpeedQuestion;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "speed",
    mixinStandardHelpOptions = true,
    header = "Tell how fast a side ought to run, and why; write a copy that does.",
    description = {
      "",
      "Steady notes against a scale, the sway of an off-centre hole, and what you know of turntable",
      "and disc: each gives a factor and how sure it is. With --out a copy is written at the factor",
      "you state or that was found, and beside it COPY.speed.json with what was done. The side itself",
      "is only read: a clean copy keeps the frames of its original.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend speed side.wav                            what tells the speed?",
      "  groovemend speed side.wav --played 33.333 --png pitch.png",
      "  groovemend speed side.wav --played 45 --meant 78.26 --out right.wav",
      "  groovemend speed side.wav --factor found --take-out-wow --rate 48000 --out right.flac",
      "  groovemend speed side.wav --drift 0:1.006,90:1.002,180:1 --out right.wav",
      "",
      "Exit codes: 0 done; 2 usage, or nothing tells the speed; 4 input refused; 6 output exists."
    })
final class SpeedCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "SIDE",
      description = "A transfer, or better its clean copy: WAV, RF64, BW64, AIFF or FLAC.")
  private Path side;

  @ArgGroup(validate = false, heading = "%nWhat is known:%n")
  private final SpeedKnown known = new SpeedKnown();

  @ArgGroup(validate = false, heading = "%nWhat is wanted:%n")
  private final SpeedWanted wanted = new SpeedWanted();

  @Option(names = "--png", paramLabel = "FILE", description = "A picture of the pitch over time.")
  private Path png;

  @Option(names = "--replace", description = "Write over files that exist.")
  private boolean replace;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    SpeedQuestion question = known.question();
    wanted.check(known, side, png);
    SpeedFinding heard = null;
    SpeedCopy.Outcome copy = null;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(side));
      try {
        if (wanted.mustListen() || png != null || wanted.out() == null) {
          heard =
              SpeedSurvey.run(
                  new SpeedSurvey.Request(side, question, known.ledger(), png, replace),
                  hands.watching(bar));
        }
        if (wanted.out() != null) {
          copy =
              SpeedCopy.run(
                  new SpeedCopy.Request(
                      side,
                      wanted.map(known, heard),
                      wanted.basis(known, heard),
                      wanted.out(),
                      wanted.rateHz(),
                      wanted.seed(),
                      replace,
                      Version.number(),
                      Instant.now()),
                  hands.crew(),
                  hands.watching(bar));
        }
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("speed", 1);
      result.put("side", Usage.fileName(side));
      result.put("heard", heard == null ? null : SpeedWords.asMap(heard));
      result.put("copy", copy == null ? null : asMap(copy));
      Json.print(out, result);
    } else {
      print(heard, copy, out);
    }
    return ExitCode.DONE;
  }

  private static Map<String, Object> asMap(SpeedCopy.Outcome copy) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("file", copy.copy().toString());
    map.put("record", copy.record().toString());
    map.put("frames", copy.frames());
    map.put("sampleRateHz", copy.format().sampleRateHz());
    map.put("samplesClipped", copy.clipped());
    map.put("chunksLeftOut", copy.leftOut());
    return map;
  }

  private void print(SpeedFinding heard, SpeedCopy.Outcome copy, PrintWriter out) {
    out.println(Usage.fileName(side));
    if (heard != null) {
      for (SpeedEvidence one : heard.estimate().evidence()) {
        line(out, one.kind().words(), factor(one));
        line(out, "", one.words());
      }
      if (!heard.tuning().found()) {
        line(out, SpeedEvidence.Kind.TUNING.words(), heard.tuning().reason());
      }
      if (heard.hum() != null) {
        line(out, "hum", heard.hum().reason());
      }
      line(out, "wow", heard.wow().reason());
      SpeedEvidence together = heard.estimate().together();
      if (together != null && heard.estimate().evidence().size() > 1) {
        line(out, together.kind().words(), factor(together));
      }
      heard.estimate().doubts().forEach(doubt -> line(out, "doubt", doubt));
    }
    if (png != null) {
      line(out, "picture", png.toString());
    }
    if (copy != null) {
      line(
          out,
          "copy",
          String.format(
              Locale.ROOT,
              "%s, %s at %d Hz",
              copy.copy(),
              EditsCommand.time(copy.format().seconds(copy.frames())),
              copy.format().sampleRateHz()));
      line(out, "record", copy.record().toString());
      if (copy.clipped() > 0) {
        line(
            out,
            "doubt",
            copy.clipped()
                + " samples of the copy came out above full scale and were set to it; lower the level of the side first");
      }
      if (!copy.leftOut().isEmpty()) {
        line(out, "left out", "chunks that count in frames: " + String.join(", ", copy.leftOut()));
      }
    }
    out.flush();
  }

  private static String factor(SpeedEvidence one) {
    double cents = 1200 * StrictMath.log(one.factor()) / StrictMath.log(2);
    return String.format(
        Locale.ROOT,
        "x %.5f (%.5f to %.5f), %+.1f cents",
        one.factor(),
        one.low(),
        one.high(),
        cents);
  }

  private static void line(PrintWriter out, String name, String text) {
    out.println(String.format(Locale.ROOT, "  %-15s %s", name, text));
  }
}
