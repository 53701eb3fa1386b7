package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.walls.WallComparison;
import org.groovemend.walls.DelayFinding;
import org.groovemend.walls.WallBand;
import org.groovemend.walls.WallFinding;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "walls",
    mixinStandardHelpOptions = true,
    header = "Say how the two groove walls agree: mono or stereo, polarity, balance, delay.",
    description = {
      "",
      "What both walls share is compared over the whole side, as captured: whether it is one signal",
      "(lateral or vertical cut) or two, how much later and weaker it comes to one wall, and by",
      "octave how well they agree. The file is only read. Crosstalk of a mono groove cannot be",
      "measured; of a stereo side an upper bound is told.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend walls side.wav",
      "  groovemend walls side.wav --png walls.png",
      "  groovemend walls side.wav --json",
      "",
      "Exit codes: 0 done; 2 usage, or no two walls to draw; 4 input refused; 6 the picture exists."
    })
final class WallsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "SIDE",
      description = "Transfer of a side: WAV, RF64, BW64, AIFF or FLAC.")
  private Path side;

  @Mixin private PictureOption picture;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    picture.check();
    WallComparison.Finding found;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(side));
      try {
        found =
            WallComparison.run(
                new WallComparison.Request(side, picture.png(), picture.replace()),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("walls", 1);
      result.put("side", Usage.fileName(side));
      result.put("sampleRateHz", found.format().sampleRateHz());
      result.put("result", found.walls());
      Json.print(out, result);
    } else {
      print(found, out);
    }
    return ExitCode.DONE;
  }

  private void print(WallComparison.Finding found, PrintWriter out) {
    WallFinding walls = found.walls();
    out.println(Usage.fileName(side));
    out.printf(
        Locale.ROOT,
        "  verdict      %s, confidence %.0f %%%n",
        walls.verdict().key().replace('_', ' '),
        100 * walls.confidence());
    out.println("  " + walls.reason());
    DelayFinding delay = walls.delay();
    double micro = 1e6 / found.format().sampleRateHz();
    if (Double.isFinite(delay.doubtSamples())) {
      out.printf(
          Locale.ROOT,
          "  delay        right wall %.4f samples (%.2f us) behind left, standard deviation %.4f; drift %.3f%n",
          delay.samples(),
          micro * delay.samples(),
          delay.doubtSamples(),
          delay.driftSamples());
    }
    if (Double.isFinite(walls.balanceDoubtDb())) {
      out.printf(
          Locale.ROOT,
          "  balance      right wall %.2f dB re left, standard deviation %.2f%n",
          walls.balanceDb(),
          walls.balanceDoubtDb());
    }
    if (Double.isFinite(walls.leftIntoRightDb())) {
      out.printf(
          Locale.ROOT,
          "  crosstalk    at most %.0f dB left into right, %.0f dB right into left%n",
          walls.leftIntoRightDb(),
          walls.rightIntoLeftDb());
    } else if (walls.verdict().mono()) {
      out.println("  crosstalk    not to be told: both walls carry one signal");
    }
    if (!walls.bands().isEmpty()) {
      out.printf(
          "  %9s  %11s  %8s  %5s  %8s%n", "octave", "correlation", "balance", "+-", "vertical");
      for (WallBand band : walls.bands()) {
        out.printf(
            Locale.ROOT,
            "  %6.0f Hz  %11.3f  %5.2f dB  %5s  %5.1f dB%n",
            band.centreHertz(),
            band.correlation(),
            band.balanceDb(),
            Double.isFinite(band.balanceDoubtDb())
                ? String.format(Locale.ROOT, "%.2f", band.balanceDoubtDb())
                : "none",
            band.verticalDb());
      }
    }
    if (picture.png() != null) {
      out.println("  picture   " + picture.png());
    }
    out.flush();
  }
}
