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
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.groovemend.chain.Progress;
import org.groovemend.job.curves.CurveComparison;
import org.groovemend.job.curves.CurveSheet;
import org.groovemend.job.side.TimeRange;
import org.groovemend.playback.ChosenCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.CurveTable;
import org.groovemend.playback.FilterFit;
import org.groovemend.playback.NamedCurve;
import org.groovemend.playback.PlaybackCurve;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "curve",
    mixinStandardHelpOptions = true,
    header = "List, tabulate, draw and compare playback curves.",
    description = {
      "",
      "Without arguments: the historical curves that can be chosen by name. With names or",
      "TURNOVER/ROLLOFF[/SHELF]: their gain in third octaves. With --compare: a passage of a side",
      "through each candidate, all at one loudness, to listen to. No curve is chosen here: apply",
      "one with 'restore --stages ...,curve --curve NAME --curve-reason WORDS'.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend curve",
      "  groovemend curve riaa coarse-iec 500/16 --png curves.png",
      "  groovemend curve riaa --rate 96000 --json               coefficients as well",
      "  groovemend curve side.wav --compare 250/0,400/12,500/16 --passage 40-60 --out listen",
      "",
      "Exit codes: 0 done; 2 usage, or no such curve; 4 input refused; 6 output exists.",
      "",
      "Caution: start to listen at a low level; a curve that is wrong may boom."
    })
final class CurveCommand implements Callable<Integer> {
  /** Commas part candidates, but for those within us:... */
  private static final Pattern CANDIDATE = Pattern.compile("us:[^,]*,[^,]*,[^,]*|[^,]+");

  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..*",
      paramLabel = "CURVE|SIDE",
      description = "Curves to show; with --compare the transfer, better its repaired copy.")
  private List<String> named = new ArrayList<>();

  @Option(names = "--rate", paramLabel = "HZ", description = "Sampling rate to realise them at.")
  private Integer rate;

  @Option(names = "--png", paramLabel = "FILE", description = "A picture to write as well.")
  private Path png;

  @Option(names = "--svg", paramLabel = "FILE", description = "The same as SVG.")
  private Path svg;

  @Option(
      names = "--compare",
      paramLabel = "CURVES",
      description = "One to four candidates, comma-separated.")
  private String compare;

  @Option(
      names = "--passage",
      paramLabel = "FROM-TO",
      description = "Seconds of the side to render, such as 40-60.")
  private String passage;

  @Option(
      names = "--undo-curve",
      paramLabel = "CURVE",
      description = "Curve of the transfer to take back before each candidate.")
  private String undo;

  @Option(
      names = "--speeds",
      paramLabel = "DISC/CAPTURE",
      description = "Speeds of disc and capture if they differ, such as 78.26/45.")
  private String speeds;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for the files to listen to. Default: here.")
  private Path out = Path.of(".");

  @Option(names = "--replace", description = "Write over files that exist.")
  private boolean replace;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    if (compare != null) {
      return compare();
    }
    if (passage != null || undo != null || speeds != null) {
      throw new UsageException(
          "--passage, --undo-curve and --speeds go with --compare; name the candidates");
    }
    if (rate != null && (rate < 8000 || rate > 1_000_000)) {
      throw new UsageException("--rate " + rate + " is not 8000 to 1000000 hertz");
    }
    List<ChosenCurve> curves = named.stream().map(CurveCommand::curve).toList();
    if (png != null) {
      OutPlace.requireFile(png, "--png");
    }
    if (svg != null) {
      OutPlace.requireFile(svg, "--svg");
    }
    if (png != null || svg != null) {
      CurveSheet.draw(curves, png, svg, replace);
    }
    PrintWriter text = spec.commandLine().getOut();
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("curve", 1);
      List<ChosenCurve> all =
          curves.isEmpty() ? CurveTable.keys().stream().map(ChosenCurve::of).toList() : curves;
      result.put(
          "curves", all.stream().map(c -> CurveSheet.asMap(c, rate == null ? 0 : rate)).toList());
      Json.print(text, result);
    } else if (curves.isEmpty()) {
      list(text);
    } else {
      table(curves, text);
    }
    text.flush();
    return ExitCode.DONE;
  }

  private static ChosenCurve curve(String text) {
    return Usage.check(() -> ChosenCurve.of(text));
  }

  private static void list(PrintWriter text) {
    text.println(
        String.format(
            Locale.ROOT,
            "%-22s %6s %8s %8s  %-6s %s",
            "curve",
            "shelf",
            "turnover",
            "roll-off",
            "groove",
            "name"));
    boolean memory = false;
    for (NamedCurve c : CurveTable.all()) {
      boolean fromMemory = c.status() == NamedCurve.Status.MEMORY;
      memory |= fromMemory;
      double rollOff = PlaybackCurve.rollOffDb(c.curve().trebleMicroseconds());
      text.println(
          String.format(
              Locale.ROOT,
              "%-22s %6s %8s %8s  %-6s %s%s",
              c.key(),
              hertz(c.curve().shelfMicroseconds()),
              hertz(c.curve().turnoverMicroseconds()),
              rollOff == 0 ? "-" : String.format(Locale.ROOT, "%.1f dB", rollOff),
              c.groove(),
              c.name(),
              fromMemory ? " *" : c.doubt().isEmpty() ? "" : " ?"));
    }
    text.println("Roll-off: loss of the treble section at 10 kHz. - the curve has no such term.");
    if (memory) {
      text.println("* from memory, not checked against the source; ? see 'groovemend curve NAME'.");
    }
    text.println("Others: TURNOVER/ROLLOFF[/SHELF], such as 400/12/50, or us:3180,318,75.");
  }

  private static String hertz(double microseconds) {
    return microseconds == 0
        ? "-"
        : String.format(Locale.ROOT, "%.0f Hz", PlaybackCurve.hertz(microseconds));
  }

  private void table(List<ChosenCurve> curves, PrintWriter text) {
    for (ChosenCurve c : curves) {
      text.println(c.text() + ": " + c.inWords());
      NamedCurve row = c.named();
      if (row != null) {
        text.println(
            "  "
                + row.status().words()
                + (row.source().isEmpty() ? "" : ": " + row.source())
                + (row.doubt().isEmpty() ? "" : "; doubt: " + row.doubt()));
      }
      if (rate != null) {
        FilterFit fit = Usage.check(() -> FilterFit.of(c.curve(), rate, 1000));
        text.println(
            String.format(
                Locale.ROOT,
                "  at %d Hz: within %.3f dB of this; phase within %.2f degrees, %.2f samples ahead",
                rate,
                fit.mostErrorDb(),
                fit.mostPhaseDegrees(),
                fit.leadSamples()));
      }
    }
    StringBuilder head = new StringBuilder(String.format(Locale.ROOT, "%9s", "Hz"));
    curves.forEach(c -> head.append(String.format(Locale.ROOT, "  %12s", c.text())));
    text.println(head);
    List<List<Double>> columns = curves.stream().map(CurveSheet::decibels).toList();
    for (int i = 0; i < CurveSheet.THIRD_OCTAVES.size(); i++) {
      StringBuilder row =
          new StringBuilder(
              String.format(Locale.ROOT, "%9s", Settings.number(CurveSheet.THIRD_OCTAVES.get(i))));
      for (List<Double> column : columns) {
        // adding 0 turns a negative zero into a positive one
        row.append(
            String.format(Locale.ROOT, "  %12.2f", Math.rint(100 * column.get(i)) / 100 + 0.0));
      }
      text.println(row);
    }
    if (png != null) {
      text.println("  picture   " + png);
    }
    if (svg != null) {
      text.println("  picture   " + svg);
    }
  }

  private int compare() throws IOException {
    if (named.size() != 1) {
      throw new UsageException("--compare needs one side to render, not " + named.size());
    }
    if (passage == null) {
      throw new UsageException("--compare needs --passage FROM-TO in seconds, such as 40-60");
    }
    TimeRange range = Usage.check(() -> TimeRange.parse(passage));
    List<ChosenCurve> candidates = new ArrayList<>();
    Matcher each = CANDIDATE.matcher(compare);
    while (each.find()) {
      candidates.add(curve(each.group()));
    }
    Path side = Path.of(named.get(0));
    Usage.fileName(side);
    OutPlace.requireFolder(out);
    Progress bar = common.progress(Usage.fileName(side));
    CurveComparison.Outcome outcome;
    try {
      outcome =
          CurveComparison.run(
              new CurveComparison.Request(side, range, candidates, base(), out, replace), bar);
    } finally {
      ProgressBar.clear(bar);
    }
    PrintWriter text = spec.commandLine().getOut();
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("compare", 1);
      result.put("loudnessLufs", outcome.loudnessLufs());
      result.put(
          "files", outcome.rendered().stream().map(r -> out.resolve(r.file()).toString()).toList());
      result.put("picture", outcome.picture().toString());
      result.put("evidence", outcome.evidence().toString());
      result.put("doubt", CurveComparison.DOUBT);
      Json.print(text, result);
    } else {
      print(outcome, text);
    }
    return ExitCode.DONE;
  }

  private static String tilt(double db) {
    return Double.isNaN(db) ? "?" : String.format(Locale.ROOT, "%+.1f", db);
  }

  private CurveParameters base() {
    return Usage.check(
        () -> {
          CurveParameters base = CurveParameters.defaults();
          base = undo == null ? base : base.withUndo(undo);
          if (speeds == null) {
            return base;
          }
          double[] both = TreatmentOptions.speeds(speeds);
          return base.withSpeeds(both[0], both[1]);
        });
  }

  private void print(CurveComparison.Outcome outcome, PrintWriter text) {
    text.println(
        String.format(
            Locale.ROOT,
            "All at %.1f LUFS; tilts of the long-term spectrum:",
            outcome.loudnessLufs()));
    for (CurveComparison.Rendered r : outcome.rendered()) {
      text.println(
          String.format(
              Locale.ROOT,
              "  %-20s bass %5s, treble %5s dB an octave   %s",
              r.curve().text(),
              tilt(r.bassDbPerOctave()),
              tilt(r.trebleDbPerOctave()),
              out.resolve(r.file())));
    }
    text.println("  picture   " + outcome.picture());
    text.println("  figures   " + outcome.evidence());
    text.println(CurveComparison.DOUBT);
    text.println(
        "Write the choice down: restore --stages clicks,thumps,curve,noise --curve NAME --curve-reason WORDS");
    text.flush();
  }
}
