package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.plays.ComparePlays;
import org.groovemend.job.plays.PlayMeasures;
import org.groovemend.job.plays.PlaysWords;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.plays.PlayFinding;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "compare",
    mixinStandardHelpOptions = true,
    header = "Say which of several transfers or copies of one side is better, where, by how much.",
    description = {
      "",
      "Plays of one performance, be it with another stylus, before and after washing, or of another",
      "pressing, are brought onto the time of the first, through their differing speed and wow. What",
      "each has that the others have not is then measured: noise, clicks, what grows with the music.",
      "The files are only read. Other performances are refused.",
      "",
      "Caution: every playing wears a disc. Never play one again only to compare.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend compare unwashed.wav washed.wav",
      "  groovemend compare tip-2.5.wav tip-3.0.wav tip-3.5.wav --page tips.html",
      "  groovemend compare copy-a.wav copy-b.flac --png copies.png --json",
      "",
      "Exit codes: 0 done; 2 usage, or the same file twice; 4 input refused, or no plays of one",
      "performance; 6 output exists."
    })
final class CompareCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "PLAY",
      arity = "1..*",
      description = "Two to eight transfers; the first is what the others are measured against.")
  private List<Path> plays;

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      defaultValue = "unknown",
      description =
          "How the transfers were made, for the repairs a minute: riaa or another curve of 'groovemend curve', flat, or unknown (the clicks are asked). Default: ${DEFAULT-VALUE}.")
  private String captured;

  @Option(names = "--page", paramLabel = "FILE", description = "A page (HTML) to write as well.")
  private Path page;

  @Mixin private PictureOption picture;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Usage.requireTwoPlays(plays);
    picture.check();
    if (page != null) {
      OutPlace.requireFile(page, "--page");
    }
    CaptureCurve curve = Usage.check(() -> TreatmentOptions.captured(captured));
    ComparePlays.Finding found;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(plays.get(0)));
      try {
        found =
            ComparePlays.run(
                new ComparePlays.Request(
                    plays,
                    curve,
                    page,
                    picture.png(),
                    picture.replace(),
                    "groovemend " + Version.number(),
                    DateTimeFormatter.ofPattern("d MMMM yyyy, HH:mm", Locale.ROOT)
                        .format(LocalDateTime.now())),
                hands.crew(),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Json.print(out, asMap(found));
    } else {
      print(found, out);
    }
    return ExitCode.DONE;
  }

  private static Map<String, Object> asMap(ComparePlays.Finding found) {
    Map<String, Object> result = new LinkedHashMap<>();
    result.put("compare", 1);
    result.put("fromSeconds", found.fromSeconds());
    result.put("toSeconds", found.toSeconds());
    result.put("damagedEverywhere", found.everywhere());
    result.put("ranking", found.ranking());
    List<Map<String, Object>> all = new ArrayList<>();
    for (PlayMeasures play : found.plays()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("name", play.name());
      one.put("points", play.points());
      one.put("ownNoiseDba", play.noiseDba());
      one.put("grooveDbfs", play.grooveDbfs());
      one.put("clicksAloneAMinute", play.clicksAloneAMinute());
      one.put("repairsAMinute", play.repairsAMinute());
      one.put("extentHertz", play.extentHertz());
      one.put("loudExcessDb", play.loudExcessDb());
      one.put("alignment", alignment(play.alignment()));
      one.put("noise", play.noise());
      one.put("minutes", play.minutes());
      all.add(one);
    }
    result.put("plays", all);
    return result;
  }

  static Map<String, Object> alignment(PlayFinding a) {
    Map<String, Object> one = new LinkedHashMap<>();
    one.put("offsetSeconds", a.offsetSeconds());
    one.put("ratio", a.ratio());
    one.put("gains", a.gains());
    one.put("likeness", a.likeness());
    one.put("anchors", a.anchors());
    one.put("swayPercent", a.swayPercent());
    one.put("scatterSamples", a.scatterSamples());
    one.put("doubtSamples", a.doubtSamples());
    return one;
  }

  private void print(ComparePlays.Finding found, PrintWriter out) {
    out.println(PlaysWords.summary(found));
    out.println();
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of("play", "dB(A)", "lead-in", "clicks/min", "repairs/min", "kHz", "loud/soft dB"));
    found.ranking().forEach(p -> rows.add(PlaysWords.row(found.plays().get(p))));
    table(out, rows);
    out.println();
    List<List<String>> lies = new ArrayList<>();
    lies.add(
        List.of(
            "against the first", "starts s", "speed %", "sway %", "gain dB", "likeness", "doubt"));
    found.plays().stream().skip(1).forEach(p -> lies.add(PlaysWords.alignmentRow(p)));
    table(out, lies);
    if (page != null) {
      out.println("  page     " + page);
    }
    if (picture.png() != null) {
      out.println("  picture  " + picture.png());
    }
    out.flush();
  }

  private static void table(PrintWriter out, List<List<String>> rows) {
    int[] width = new int[rows.get(0).size()];
    for (List<String> row : rows) {
      for (int i = 0; i < width.length; i++) {
        width[i] = Math.max(width[i], row.get(i).length());
      }
    }
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder("  ");
      for (int i = 0; i < width.length; i++) {
        String pad = " ".repeat(width[i] - row.get(i).length());
        line.append(i == 0 ? row.get(i) + pad : "  " + pad + row.get(i));
      }
      out.println(line);
    }
  }
}
