package org.groovemend.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.SpeedCopy;
import org.groovemend.speed.TimeMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "speed",
    mixinStandardHelpOptions = true,
    header = "Tell the right speed of a side; write a copy that runs at it.",
    description = {"", "..."},
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend speed side.wav --played 45 --meant 78.26 --out right.wav",
    })
final class SpeedCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "SIDE", description = "x")
  private Path side;

  @Option(names = "--factor", description = "x")
  private double factor = 1;

  @Option(names = "--out", description = "x")
  private Path out;

  @Option(names = "--rate", description = "x")
  private int rate;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    SpeedCopy.Outcome outcome;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(side));
      try {
        outcome =
            SpeedCopy.run(
                new SpeedCopy.Request(
                    side,
                    TimeMap.of(factor),
                    "stated",
                    out,
                    rate,
                    1,
                    true,
                    Version.number(),
                    Instant.now()),
                hands.crew(),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    spec.commandLine().getOut().println(outcome);
    return 0;
  }
}
