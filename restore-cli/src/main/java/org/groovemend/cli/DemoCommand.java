package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.demo.Demo;
import org.groovemend.job.proof.Verify;
import org.groovemend.ledger.Check;
import org.groovemend.simulate.DemoScenario;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    header =
        "See the whole path on an invented worn record: make, restore, verify, revert, compare.",
    description = {
      "",
      "Everything about the record is invented: place, people, band and tune.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend demo",
      "  groovemend demo --out somewhere",
      "  groovemend demo --discs --out two-discs",
      "",
      "Caution: the transfer and the removed signal hold loud pops; listen at a low level first."
    })
final class DemoCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description =
          "A new folder for what is made. Default: groovemend-demo here, numbered if there is one.")
  private Path out;

  @Option(
      names = "--discs",
      description =
          "Instead, two flat transfers, a 78 and an LP, to finished files by one recipe: curve, speed, copies, tags, loudness.")
  private boolean discs;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Path folder = out == null ? freeFolder() : out;
    OutPlace.requireFolder(folder);
    if (discs) {
      return discs(folder);
    }
    Demo.Outcome outcome;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress("demo");
      try {
        outcome =
            Demo.run(
                folder,
                Version.number(),
                Clock.systemUTC().instant(),
                hands.crew(),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    boolean holds = !Verify.failed(outcome.checks()) && outcome.sameBytes();
    PrintWriter text = spec.commandLine().getOut();
    if (common.json()) {
      Json.print(
          text,
          java.util.Map.of(
              "demo", 1, "holds", holds, "outcome", RestoreView.asMap(outcome.restored())));
    } else {
      print(outcome, holds, text);
    }
    return holds ? ExitCode.DONE : ExitCode.VERIFICATION_FAILED;
  }

  private int discs(Path folder) throws Exception {
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress("demo");
      try {
        return DiscsDemo.run(folder, hands, bar, common.json(), spec.commandLine().getOut());
      } finally {
        ProgressBar.clear(bar);
      }
    }
  }

  private static Path freeFolder() {
    Path folder = Path.of("groovemend-demo");
    for (int n = 2; Files.exists(folder, LinkOption.NOFOLLOW_LINKS); n++) {
      folder = Path.of("groovemend-demo-" + n);
    }
    return folder;
  }

  private static void print(Demo.Outcome outcome, boolean holds, PrintWriter out) {
    out.println(
        "An invented record: \"" + DemoScenario.TITLE + "\", " + DemoScenario.PERFORMER + ",");
    out.println(
        "  " + DemoScenario.LABEL + " " + DemoScenario.MATRIX + "; " + DemoScenario.DISC + ".");
    out.println("  Transfer: " + DemoScenario.TRANSFER + ".");
    out.println();
    RestoreView.print(outcome.restored(), out);
    out.println();
    out.println(
        String.format(
            Locale.ROOT,
            "Music against all that is not music: %.1f dB in the transfer, %.1f dB in the clean copy.",
            outcome.musicSnrBeforeDb(),
            outcome.musicSnrAfterDb()));
    long held = outcome.checks().stream().filter(c -> c.outcome() == Check.Outcome.HOLDS).count();
    long failed = outcome.checks().stream().filter(c -> c.outcome() == Check.Outcome.FAILS).count();
    out.println(
        "Verified: "
            + held
            + " checks hold, "
            + failed
            + " fail, "
            + (outcome.checks().size() - held - failed)
            + " does not apply (a stage touched the whole signal).");
    out.println(
        "Reverted: "
            + (outcome.sameBytes()
                ? "the original came back byte for byte from copy, ledger and removed signal."
                : "THE ORIGINAL DID NOT COME BACK."));
    out.println();
    out.println("  transfer    " + outcome.transfer());
    out.println("  reverted    " + outcome.reverted());
    out.println("  pictures    " + outcome.waveformPicture());
    out.println("              " + outcome.spectrogramPicture());
    out.println();
    out.println(
        holds
            ? "Open the report in a browser; then try 'restore' on a transfer of your own."
            : "Something does not hold; please report this.");
    out.flush();
  }
}
