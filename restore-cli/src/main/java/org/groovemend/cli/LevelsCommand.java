package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.SideRoom;
import org.groovemend.levels.GainPlan;
import org.groovemend.levels.Level;
import org.groovemend.levels.NoiseChain;
import org.groovemend.levels.Pickup;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.ChosenCurve;
import org.groovemend.playback.CurveParameters;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "levels",
    mixinStandardHelpOptions = true,
    header = "Convert levels; plan gain, headroom and noise of a transfer.",
    description = {
      "",
      "With a level: the same in volts, dBV, dBu, dBFS and groove velocity. Without arguments: a plan",
      "of preamplifier gain, the room for music and clicks before and behind the curve, and the noise",
      "of every link. With a transfer: the room it has left, its clicks told from its music.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend levels 5mV",
      "  groovemend levels --full-scale 18 -- -18dBFS",
      "  groovemend levels --pickup 5 --full-scale 18 --curve riaa",
      "  groovemend levels --pickup 3 --gain 40 --converter 110 --curve riaa",
      "  groovemend levels side.wav --captured flat --curve riaa",
      "",
      "Exit codes: 0 done; 2 usage; 4 input refused.",
      "",
      "Caution: set the gain on the least valuable disc of a series, with the monitors turned down."
    })
final class LevelsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..1",
      paramLabel = "LEVEL|SIDE",
      description =
          "A level: number and V, mV, uV, dBV, dBu, dBFS or cm/s; one below 0 behind --. Or a transfer.")
  private String what;

  @Option(
      names = "--pickup",
      paramLabel = "MV",
      defaultValue = "5",
      description =
          "Millivolts that the pick-up gives at 5 cm/s, 1 kHz. Default: ${DEFAULT-VALUE}.")
  private double millivolts;

  @Option(
      names = "--full-scale",
      paramLabel = "DBU",
      defaultValue = "18",
      description = "Sine at the converter that reaches 0 dBFS, dBu. Default: ${DEFAULT-VALUE}.")
  private double fullScaleDbu;

  @Option(
      names = "--gain",
      paramLabel = "DB",
      description = "Gain of the preamplifier, flat. Default: the most that fits.")
  private Double gain;

  @Option(
      names = "--loudest",
      paramLabel = "DB",
      defaultValue = "20",
      description = "Loudest music re 5 cm/s; some 20 on fine grooves. Default: ${DEFAULT-VALUE}.")
  private double loudest;

  @Option(
      names = "--clicks",
      paramLabel = "DB",
      defaultValue = "15",
      description =
          "Worst click over the loudest music, flat; 10 to 20 (common practice). Default: ${DEFAULT-VALUE}.")
  private double clicks;

  @Option(
      names = "--room",
      paramLabel = "DB",
      defaultValue = "12",
      description =
          "Room to keep above the music; 12 to 20 (common practice). Default: ${DEFAULT-VALUE}.")
  private double room;

  @Option(
      names = "--curve",
      paramLabel = "CURVE",
      defaultValue = "riaa",
      description = "Playback curve to look behind. Default: ${DEFAULT-VALUE}.")
  private String curve;

  @Option(
      names = "--converter",
      paramLabel = "DB",
      defaultValue = "115",
      description =
          "Dynamic range of the converter, unweighted in 20 kHz. Default: ${DEFAULT-VALUE}.")
  private double converter;

  @Option(
      names = "--input-noise",
      paramLabel = "NV",
      defaultValue = "0",
      description =
          "Noise of the preamplifier, nanovolts per root hertz; 0 leaves it out. Default: ${DEFAULT-VALUE}.")
  private double inputNoise;

  @Option(
      names = "--groove",
      paramLabel = "DB",
      defaultValue = "55",
      description =
          "What the groove holds, music of 5 cm/s over its noise; good ones some 55 (common practice). Default:"
              + " ${DEFAULT-VALUE}.")
  private double groove;

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      defaultValue = "unknown",
      description =
          "Of a transfer: riaa or another curve, flat, or unknown. Default: ${DEFAULT-VALUE}.")
  private String captured;

  @Mixin private CoilOptions coil;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Pickup pickup = Usage.check(() -> new Pickup(millivolts, Pickup.REFERENCE_VELOCITY));
    Level fullScale = Usage.check(() -> Level.ofDbu(finite("--full-scale", fullScaleDbu, 60)));
    if (what != null && Level.isQuantity(what)) {
      convert(Usage.check(() -> Level.parse(what, pickup, fullScale)), pickup, fullScale);
    } else if (what != null) {
      side(Path.of(what));
    } else {
      plan(pickup, fullScale);
    }
    return ExitCode.DONE;
  }

  private static double finite(String option, double value, double most) {
    if (!(Math.abs(value) <= most)) {
      throw new IllegalArgumentException(
          option + " " + value + " is outside -" + most + " to " + most);
    }
    return value;
  }

  private void convert(Level level, Pickup pickup, Level fullScale) {
    PrintWriter out = spec.commandLine().getOut();
    double velocity = pickup.velocityOf(level);
    Map<String, Object> result = new LinkedHashMap<>();
    result.put("levels", 1);
    result.put("volts", level.volts());
    result.put("dBV", level.dbV());
    result.put("dBu", level.dbu());
    result.put("dBFS", level.over(fullScale));
    result.put("fullScaleDbu", fullScale.dbu());
    result.put("velocityCmPerSecond", velocity);
    result.put("pickupMillivolts", millivolts);
    if (common.json()) {
      Json.print(out, result);
      return;
    }
    line(out, "volts", volts(level.volts()) + " rms, " + volts(level.peakVolts()) + " peak");
    line(out, "dBV", "%.3f", level.dbV());
    line(out, "dBu", "%.3f", level.dbu());
    line(
        out,
        "dBFS",
        "%.3f   if %+.1f dBu reach full scale (sine, AES17)",
        level.over(fullScale),
        fullScale.dbu());
    line(
        out,
        "velocity",
        "%.4g cm/s   if %s mV are 5 cm/s; %.4g um of swing at 1 kHz",
        velocity,
        Settings.number(millivolts),
        Pickup.displacementMicrometres(velocity, 1000));
    out.flush();
  }

  private static String volts(double volts) {
    return volts >= 0.1
        ? String.format(Locale.ROOT, "%.4g V", volts)
        : volts >= 1e-4
            ? String.format(Locale.ROOT, "%.4g mV", 1e3 * volts)
            : String.format(Locale.ROOT, "%.4g uV", 1e6 * volts);
  }

  private void plan(Pickup pickup, Level fullScale) {
    ChosenCurve chosen = Usage.check(() -> ChosenCurve.of(curve));
    GainPlan plan =
        Usage.check(
            () ->
                GainPlan.of(
                    new GainPlan.Chain(
                        pickup,
                        gain == null ? Double.NaN : finite("--gain", gain, 100),
                        fullScale,
                        loudest,
                        clicks,
                        room,
                        chosen.curve())));
    NoiseChain noise =
        Usage.check(
            () ->
                NoiseChain.of(
                    plan,
                    coil.coil(),
                    1e-9 * finite("--input-noise", inputNoise, 1e6),
                    finite("--converter", converter, 200),
                    finite("--groove", groove, 200)));
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Json.print(out, asMap(plan, noise, chosen));
      return;
    }
    line(
        out,
        "gain",
        "%s dB%s; at most %.1f: %s dB above music, clicks just fit",
        Settings.number(plan.chain().gainDb()),
        gain == null ? "" : " as stated",
        plan.mostGainDb(),
        Settings.number(room));
    line(
        out,
        "curve",
        "%s: %+.1f to %+.1f dB re 1 kHz; a click of 0.1 ms %+.1f dB",
        chosen.text(),
        plan.room().leastDb(),
        plan.room().mostDb(),
        plan.room().clickDb());
    out.println("               before the curve   behind it (peak, dBFS)");
    line(out, "music", "%16.1f   %9.1f at worst", plan.musicDbfs(), plan.musicBehindDbfs());
    line(out, "clicks", "%16.1f   %9.1f", plan.clickDbfs(), plan.clickBehindDbfs());
    if (plan.clickDbfs() > 0 || plan.musicDbfs() > 0) {
      out.println("  Too much: what is above 0 before the curve is cut off in the converter.");
    }
    if (plan.curveGainDb() < 0) {
      line(
          out,
          "room",
          "behind the curve %.1f dB are missing at worst: --curve-gain %.1f in restore",
          -plan.curveGainDb(),
          Math.floor(10 * plan.curveGainDb()) / 10);
    }
    out.println("  Noise under music of 5 cm/s at 1 kHz, 20 Hz to 20 kHz, behind the curve:");
    for (NoiseChain.Link link : noise.links()) {
      out.println(
          String.format(
              Locale.ROOT,
              "    %-32s %6.1f dB%s",
              link.name(),
              link.belowDb(),
              link.equals(noise.limiting()) ? "   limits" : ""));
    }
    out.println(String.format(Locale.ROOT, "    %-32s %6.1f dB", "all", noise.allDb()));
    out.flush();
  }

  private static Map<String, Object> asMap(GainPlan plan, NoiseChain noise, ChosenCurve chosen) {
    Map<String, Object> result = new LinkedHashMap<>();
    result.put("levels", 1);
    result.put("curve", chosen.text());
    result.put("gainDb", plan.chain().gainDb());
    result.put("mostGainDb", plan.mostGainDb());
    result.put("curveMostDb", plan.room().mostDb());
    result.put("curveLeastDb", plan.room().leastDb());
    result.put("curveClickDb", plan.room().clickDb());
    result.put("musicDbfs", plan.musicDbfs());
    result.put("musicBehindDbfs", plan.musicBehindDbfs());
    result.put("clickDbfs", plan.clickDbfs());
    result.put("clickBehindDbfs", plan.clickBehindDbfs());
    result.put("curveGainDb", plan.curveGainDb());
    result.put("noise", noise.links());
    result.put("noiseAllDb", noise.allDb());
    result.put("limiting", noise.limiting().name());
    return result;
  }

  private void side(Path file) throws IOException {
    CaptureCurve how = Usage.check(() -> TreatmentOptions.captured(captured));
    String undo = how.isCurved() ? how.key() : ChosenCurve.FLAT;
    CurveParameters through =
        Usage.check(() -> CurveParameters.defaults().withUndo(undo).withApply(curve));
    SideRoom found;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(file));
      try {
        found = SideRoom.measure(file, how, through, hands.crew(), hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    PrintWriter out = spec.commandLine().getOut();
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("levels", 1);
      result.put("side", Usage.fileName(file));
      result.put("curve", curve);
      result.put("undone", undo);
      result.put("room", found);
      Json.print(out, result);
      return;
    }
    out.println(Usage.fileName(file));
    out.println("               as captured   behind " + curve + " (highest peak, dBFS)");
    line(out, "music", "%11.1f   %9.1f", found.musicBeforeDbfs(), found.musicBehindDbfs());
    line(out, "with clicks", "%11.1f   %9.1f", found.allBeforeDbfs(), found.allBehindDbfs());
    out.println(
        String.format(
            Locale.ROOT,
            "  Music: what is left when %d clicks are repaired. A click that was not found counts as music.",
            found.repairs()));
    if (found.musicBehindDbfs() > 0) {
      line(
          out,
          "room",
          "music does not fit behind the curve: --curve-gain %.1f in restore",
          Math.floor(-10 * found.musicBehindDbfs()) / 10);
    }
    out.flush();
  }

  private static void line(PrintWriter out, String name, String form, Object... values) {
    String text = values.length == 0 ? form : String.format(Locale.ROOT, form, values);
    out.println(String.format(Locale.ROOT, "  %-11s %s", name, text));
  }
}
