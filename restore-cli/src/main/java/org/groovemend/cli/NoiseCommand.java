package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.GrooveSound;
import org.groovemend.job.TimeRange;
import org.groovemend.measure.FrequencyWeighting;
import org.groovemend.stage.CaptureCurve;
import org.groovemend.surfacenoise.GrooveNoise;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "noise",
    mixinStandardHelpOptions = true,
    header = "Say what the bare groove of a transfer sounds like, in third octaves.",
    description = {
      "",
      "The spectrum that restore would take for the groove noise: of the lead-in, after clicks and",
      "thumps are repaired, and of the run-out beside it, if there is one. The file is only read.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend noise side.wav",
      "  groovemend noise side.wav --lead-in 0.8-3.1 --png groove.png",
      "  groovemend noise side.wav --captured riaa --json",
      "",
      "Exit codes: 0 done; 2 usage, or no bare groove found; 4 input refused; 6 the picture exists."
    })
final class NoiseCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "SIDE",
      description = "Transfer of a side: WAV, RF64, BW64, AIFF or FLAC.")
  private Path side;

  @Option(
      names = "--lead-in",
      paramLabel = "FROM-TO",
      description = "Seconds in which only the groove is heard, such as 0.8-3.1. Default: found.")
  private String leadIn;

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      defaultValue = "unknown",
      description =
          "How the transfer was made: riaa, flat, or unknown (the side's own clicks are asked). Default: ${DEFAULT-VALUE}.")
  private String captured;

  @Option(names = "--png", paramLabel = "FILE", description = "A picture to write as well.")
  private Path png;

  @Option(names = "--replace", description = "Write over the picture if it exists.")
  private boolean replace;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    CaptureCurve curve = Usage.check(() -> TreatmentOptions.curve(captured));
    TimeRange stated = leadIn == null ? null : Usage.check(() -> TimeRange.parse(leadIn));
    if (png != null) {
      OutPlace.requireFile(png, "--png");
    }
    GrooveSound.Finding found;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(side));
      try {
        found =
            GrooveSound.run(
                new GrooveSound.Request(side, stated, curve, png, replace),
                hands.crew(),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("noise", 1);
      result.put("side", side.getFileName().toString());
      result.put("leadIn", asMap(found.leadIn()));
      result.put("runOut", found.runOut() == null ? null : asMap(found.runOut()));
      Json.print(out, result);
    } else {
      print(found, out);
    }
    return ExitCode.DONE;
  }

  private void print(GrooveSound.Finding found, PrintWriter out) {
    out.println(side.getFileName());
    List<String> heads = new ArrayList<>();
    List<GrooveNoise> sounds = new ArrayList<>();
    List<Integer> channels = new ArrayList<>();
    collect("lead-in", found.leadIn(), heads, sounds, channels);
    collect("run-out", found.runOut(), heads, sounds, channels);
    stretch("lead-in", found.leadIn(), out);
    stretch("run-out", found.runOut(), out);
    StringBuilder head = new StringBuilder(String.format(Locale.ROOT, "  %9s", "dBFS"));
    heads.forEach(h -> head.append(String.format(Locale.ROOT, "  %14s", h)));
    out.println(head);
    line(out, "all", sounds, channels, FrequencyWeighting.NONE);
    line(out, "A", sounds, channels, FrequencyWeighting.A);
    line(out, "468 rms", sounds, channels, FrequencyWeighting.ITU_R_468);
    List<GrooveNoise.Band> bands = found.leadIn().thirdOctaves();
    for (int b = 0; b < bands.size(); b++) {
      double hertz = bands.get(b).centreHz();
      StringBuilder row =
          new StringBuilder(
              String.format(Locale.ROOT, hertz < 100 ? "  %6.1f Hz" : "  %6.0f Hz", hertz));
      for (int i = 0; i < sounds.size(); i++) {
        row.append(
            String.format(
                Locale.ROOT,
                "  %14.1f",
                sounds.get(i).thirdOctaves().get(b).levelDbfs().get(channels.get(i))));
      }
      out.println(row);
    }
    if (png != null) {
      out.println("  picture   " + png);
    }
    out.flush();
  }

  private static void collect(
      String where,
      GrooveNoise sound,
      List<String> heads,
      List<GrooveNoise> sounds,
      List<Integer> channels) {
    for (int c = 0; sound != null && c < sound.power().length; c++) {
      heads.add(
          sound.power().length == 1
              ? where
              : where + " " + EditsCommand.wall(c, sound.power().length));
      sounds.add(sound);
      channels.add(c);
    }
  }

  private static void stretch(String where, GrooveNoise sound, PrintWriter out) {
    if (sound != null) {
      out.println(
          String.format(
              Locale.ROOT,
              "  %s   %s to %s, %d spectra, each line sure to %.1f dB",
              where,
              EditsCommand.time(sound.startFrame() / (double) sound.sampleRateHz()),
              EditsCommand.time(sound.endFrame() / (double) sound.sampleRateHz()),
              sound.framesUsed(),
              sound.uncertaintyDb()));
    }
  }

  private static void line(
      PrintWriter out,
      String name,
      List<GrooveNoise> sounds,
      List<Integer> channels,
      FrequencyWeighting weighting) {
    StringBuilder row = new StringBuilder(String.format(Locale.ROOT, "  %9s", name));
    for (int i = 0; i < sounds.size(); i++) {
      row.append(
          String.format(
              Locale.ROOT,
              "  %14.1f",
              sounds.get(i).levelDbfs(channels.get(i), weighting::decibels)));
    }
    out.println(row);
  }

  private static Map<String, Object> asMap(GrooveNoise sound) {
    Map<String, Object> result = new LinkedHashMap<>();
    double rate = sound.sampleRateHz();
    result.put("fromSeconds", sound.startFrame() / rate);
    result.put("toSeconds", sound.endFrame() / rate);
    result.put("spectra", sound.framesUsed());
    result.put("spectraRejected", sound.framesRejected());
    result.put("uncertaintyDb", sound.uncertaintyDb());
    List<Map<String, Object>> levels = new ArrayList<>();
    for (int c = 0; c < sound.power().length; c++) {
      Map<String, Object> level = new LinkedHashMap<>();
      level.put("dbfs", sound.levelDbfs(c, FrequencyWeighting.NONE::decibels));
      level.put("dbfsAWeighted", sound.levelDbfs(c, FrequencyWeighting.A::decibels));
      level.put("dbfs468WeightedRms", sound.levelDbfs(c, FrequencyWeighting.ITU_R_468::decibels));
      levels.add(level);
    }
    result.put("channels", levels);
    result.put("thirdOctaves", sound.thirdOctaves());
    return result;
  }
}
