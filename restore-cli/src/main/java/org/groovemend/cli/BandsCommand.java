package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.bands.BandPiece;
import org.groovemend.bands.BandPlan;
import org.groovemend.bands.BandSurvey;
import org.groovemend.bands.BandWish;
import org.groovemend.bands.Clock;
import org.groovemend.bands.Gap;
import org.groovemend.chain.Progress;
import org.groovemend.job.bands.BandCutting;
import org.groovemend.job.bands.BandFade;
import org.groovemend.job.bands.BandJob;
import org.groovemend.job.bands.BandListFile;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "bands",
    mixinStandardHelpOptions = true,
    header = "Find the bands of a side and how sure that is; mark them, or cut it into pieces.",
    description = {
      "",
      "Listens for the gaps in which only the groove is heard. Without options nothing is written.",
      "Pieces hold the words of the side: one after the other they are the side again. A side on",
      "which bands run into each other has no gaps: then give a list of times, or the count.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend bands side.wav --png bands.png             where are the gaps?",
      "  groovemend bands side.wav --list titles.txt --out cut",
      "  groovemend bands side.wav --labels bands.csv --marked marked.wav",
      "  groovemend bands live.flac --count 5 --out cut --fade-in 1 --fade-out 3",
      "",
      "A list has a band a line, 3:07.5 Title, or +2:58 Title for how long it lasts, or Title alone;",
      "or it is a .csv or .json file as --labels writes it.",
      "Exit codes: 0 done; 2 usage, or the list does not fit; 4 input refused; 6 output exists."
    })
final class BandsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "SIDE",
      description = "A transfer, or better its clean copy: WAV, RF64, BW64, AIFF or FLAC.")
  private Path side;

  @ArgGroup(validate = false, heading = "%nWhat is known:%n")
  private final BandsKnown known = new BandsKnown();

  @ArgGroup(validate = false, heading = "%nWhat is wanted:%n")
  private final BandsWanted wanted = new BandsWanted();

  @Option(names = "--png", paramLabel = "FILE", description = "A picture of levels, gaps and cuts.")
  private Path png;

  @Option(names = "--replace", description = "Write over files that exist.")
  private boolean replace;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Usage.fileName(side);
    wanted.check();
    if (png != null) {
      OutPlace.requireFile(png, "--png");
    }
    BandWish wish = known.wish();
    BandSurvey survey;
    BandPlan plan;
    BandCutting.Outcome cut = null;
    List<String> replaced = List.of();
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(side));
      try {
        survey = BandJob.survey(side, hands.watching(bar));
        plan = BandJob.plan(survey, wish);
        BandFade fade = wanted.fade(survey);
        if (wanted.out() != null) {
          cut =
              BandCutting.run(
                  new BandCutting.Request(
                      side,
                      plan,
                      wanted.out(),
                      wanted.flac(side),
                      fade,
                      replace,
                      Version.number(),
                      Instant.now()),
                  hands.crew(),
                  hands.watching(bar));
        }
        if (wanted.marked() != null) {
          replaced = BandCutting.marked(side, plan, wanted.marked(), replace, hands.watching(bar));
        }
        writeSmall(survey, plan);
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Json.print(out, asMap(survey, plan, cut));
    } else {
      print(survey, plan, cut, replaced, out);
    }
    return ExitCode.DONE;
  }

  private void writeSmall(BandSurvey survey, BandPlan plan) throws IOException {
    List<Path> inputs = new ArrayList<>(List.of(side));
    if (known.list() != null) {
      inputs.add(known.list());
    }
    if (wanted.labels() != null) {
      BandJob.list(plan, wanted.labels(), replace, inputs);
    }
    if (png != null) {
      BandJob.draw(survey, plan, png, replace, inputs);
    }
  }

  private Map<String, Object> asMap(BandSurvey survey, BandPlan plan, BandCutting.Outcome cut) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("bandsFound", 1);
    all.put("side", Usage.fileName(side));
    all.put("sampleRateHz", plan.sampleRateHz());
    all.put("frames", plan.frames());
    all.put("groove", survey.basis());
    List<Map<String, Object>> gaps = new ArrayList<>();
    for (Gap gap : survey.gaps()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("start", plan.seconds(gap.startFrame()));
      one.put("end", plan.seconds(gap.endFrame()));
      one.put("confidence", gap.confidence());
      one.put("reason", gap.reason());
      gaps.add(one);
    }
    all.put("gaps", gaps);
    all.put("bands", BandListFile.asList(plan));
    List<Map<String, Object>> perhaps = new ArrayList<>();
    for (BandPlan.QuietPlace place : plan.perhaps()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("at", plan.seconds(place.frame()));
      one.put("confidence", place.confidence());
      one.put("depthDb", place.depthDb());
      perhaps.add(one);
    }
    all.put("perhaps", perhaps);
    all.put("doubts", plan.doubts());
    all.put("files", cut == null ? null : cut.pieces().stream().map(Path::toString).toList());
    all.put("record", cut == null ? null : cut.record().toString());
    return all;
  }

  private void print(
      BandSurvey survey,
      BandPlan plan,
      BandCutting.Outcome cut,
      List<String> replaced,
      PrintWriter out) {
    out.println(Usage.fileName(side));
    line(out, "groove", survey.basis());
    for (BandPiece piece : plan.pieces()) {
      boolean band = piece.kind() == BandPiece.Kind.BAND;
      line(
          out,
          band ? "band " + piece.number() : piece.kind().word(),
          String.format(
              Locale.ROOT,
              "%s to %s%s",
              Clock.text(plan.seconds(piece.firstFrame())),
              Clock.text(plan.seconds(piece.endFrame())),
              piece.title().isEmpty() ? "" : "  " + piece.title()));
      if (piece.firstFrame() > 0) {
        line(
            out,
            "",
            String.format(
                Locale.ROOT, "%s; sure to %.0f %%", piece.reason(), 100 * piece.confidence()));
      }
    }
    for (Gap gap : survey.gaps()) {
      boolean used =
          plan.pieces().stream()
              .anyMatch(
                  p -> p.firstFrame() >= gap.startFrame() && p.firstFrame() <= gap.endFrame());
      if (!used) {
        line(
            out,
            "not cut",
            String.format(
                Locale.ROOT,
                "%s: %s; sure to %.0f %%",
                Clock.text(plan.seconds(gap.endFrame())),
                gap.reason(),
                100 * gap.confidence()));
      }
    }
    for (BandPlan.QuietPlace place : plan.perhaps()) {
      line(
          out,
          "perhaps",
          String.format(
              Locale.ROOT,
              "%s: no gap, but %.0f dB quieter than around; sure to %.0f %%; not cut",
              Clock.text(plan.seconds(place.frame())),
              place.depthDb(),
              100 * place.confidence()));
    }
    plan.doubts().forEach(doubt -> line(out, "doubt", doubt));
    if (cut != null) {
      line(out, "pieces", cut.pieces().size() + " files in " + wanted.out());
      line(out, "record", cut.record().toString());
      if (!cut.leftOut().isEmpty()) {
        line(out, "left out", "chunks that count in frames: " + String.join(", ", cut.leftOut()));
      }
    }
    if (wanted.marked() != null) {
      line(out, "marked", wanted.marked().toString());
      if (!replaced.isEmpty()) {
        line(out, "left out", "marks of the original: " + String.join(", ", replaced));
      }
    }
    if (wanted.labels() != null) {
      line(out, "list", wanted.labels().toString());
    }
    if (png != null) {
      line(out, "picture", png.toString());
    }
    out.flush();
  }

  private static void line(PrintWriter out, String name, String text) {
    out.println(String.format(Locale.ROOT, "  %-9s %s", name, text));
  }
}
