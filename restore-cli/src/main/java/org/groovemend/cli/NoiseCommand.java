package org.groovemend.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.Function;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.GrooveLevels;
import org.groovemend.job.restore.GrooveSound;
import org.groovemend.job.side.TimeRange;
import org.groovemend.measure.FrequencyWeighting;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.surfacenoise.GrooveNoise;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
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

  @Mixin private CapturedSide transfer;

  @Option(
      names = "--lead-in",
      paramLabel = "FROM-TO",
      description = "Seconds in which only the groove is heard, such as 0.8-3.1. Default: found.")
  private String leadIn;

  @Mixin private PictureOption picture;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    CaptureCurve curve = transfer.curve();
    TimeRange stated = leadIn == null ? null : Usage.check(() -> TimeRange.parse(leadIn));
    picture.check();
    GrooveSound.Finding found;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(transfer.file()));
      try {
        found =
            GrooveSound.run(
                new GrooveSound.Request(
                    transfer.file(), stated, curve, picture.png(), picture.replace()),
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
      result.put("side", Usage.fileName(transfer.file()));
      result.put("leadIn", GrooveLevels.asMap(found.leadIn()));
      result.put("runOut", found.runOut() == null ? null : GrooveLevels.asMap(found.runOut()));
      Json.print(out, result);
    } else {
      print(found, out);
    }
    return ExitCode.DONE;
  }

  private void print(GrooveSound.Finding found, PrintWriter out) {
    out.println(Usage.fileName(transfer.file()));
    List<Column> columns = new ArrayList<>();
    collect("lead-in", found.leadIn(), columns);
    collect("run-out", found.runOut(), columns);
    stretch("lead-in", found.leadIn(), out);
    stretch("run-out", found.runOut(), out);
    row(out, "dBFS", columns, Column::head);
    line(out, "all", columns, FrequencyWeighting.NONE);
    line(out, "A", columns, FrequencyWeighting.A);
    line(out, "468 rms", columns, FrequencyWeighting.ITU_R_468);
    List<GrooveNoise.Band> bands = found.leadIn().thirdOctaves();
    for (int b = 0; b < bands.size(); b++) {
      int band = b;
      double hertz = bands.get(b).centreHz();
      row(
          out,
          String.format(Locale.ROOT, hertz < 100 ? "%.1f Hz" : "%.0f Hz", hertz),
          columns,
          c -> level(c.bands().get(band).levelDbfs().get(c.channel())));
    }
    if (picture.png() != null) {
      out.println("  picture   " + picture.png());
    }
    out.flush();
  }

  /** One channel of one stretch. */
  private record Column(
      String head, GrooveNoise sound, List<GrooveNoise.Band> bands, int channel) {}

  private static void collect(String where, GrooveNoise sound, List<Column> columns) {
    if (sound == null) {
      return;
    }
    int channels = sound.power().length;
    List<GrooveNoise.Band> bands = sound.thirdOctaves();
    for (int c = 0; c < channels; c++) {
      String head = channels == 1 ? where : where + " " + AudioFormat.channelName(c, channels);
      columns.add(new Column(head, sound, bands, c));
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
      PrintWriter out, String name, List<Column> columns, FrequencyWeighting weighting) {
    row(out, name, columns, c -> level(c.sound().levelDbfs(c.channel(), weighting::decibels)));
  }

  private static void row(
      PrintWriter out, String name, List<Column> columns, Function<Column, String> cell) {
    StringBuilder row = new StringBuilder(String.format(Locale.ROOT, "  %9s", name));
    columns.forEach(c -> row.append(String.format(Locale.ROOT, "  %14s", cell.apply(c))));
    out.println(row);
  }

  private static String level(double dbfs) {
    return String.format(Locale.ROOT, "%.1f", dbfs);
  }
}
