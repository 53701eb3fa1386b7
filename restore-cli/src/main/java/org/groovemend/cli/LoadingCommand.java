package org.groovemend.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.cartridge.LoadCorrection;
import org.groovemend.cartridge.LoadedCoil;
import org.groovemend.job.curves.LoadingSheet;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "loading",
    mixinStandardHelpOptions = true,
    header = "Say what a pick-up's load does to its treble, and what would correct it.",
    description = {
      "",
      "The coil's inductance and the capacitance of cable and input make a low-pass that may peak. The",
      "electrical part only: the resonance of the tip, which makers balance against it, is not in it.",
      "With --ideal-capacitance or --ideal-load: the correction to that load, refused if it would take",
      "more than --most-gain.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend loading --inductance 500 --coil 800 --load 47000 --capacitance 300",
      "  groovemend loading --capacitance 400 --ideal-capacitance 150 --png loading.png",
      "  groovemend loading --inductance 250 --coil 500 --json",
      "",
      "Exit codes: 0 done; 2 usage, or a correction that needs too much gain; 6 the picture exists."
    })
final class LoadingCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Mixin private CoilOptions coil;

  @Option(
      names = "--ideal-load",
      paramLabel = "OHM",
      description = "Resistance it should have been loaded with. Default: that of --load.")
  private Double idealOhms;

  @Option(
      names = "--ideal-capacitance",
      paramLabel = "PF",
      description = "Capacitance it should have been. Default: that of --capacitance.")
  private Double idealPicofarad;

  @Option(
      names = "--most-gain",
      paramLabel = "DB",
      defaultValue = "6",
      description = "Most gain that a correction may take. Default: ${DEFAULT-VALUE}.")
  private double mostGain;

  @Option(
      names = "--up-to",
      paramLabel = "HZ",
      defaultValue = "20000",
      description = "How far up it is corrected. Default: ${DEFAULT-VALUE}.")
  private double upTo;

  @Mixin private PictureOption picture;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    LoadedCoil actual = coil.coil();
    LoadCorrection correction = null;
    if (idealOhms != null || idealPicofarad != null) {
      LoadedCoil ideal =
          Usage.check(
              () ->
                  actual.into(
                      idealOhms == null ? actual.loadOhms() : idealOhms,
                      idealPicofarad == null ? actual.farad() : idealPicofarad * 1e-12));
      correction = Usage.check(() -> new LoadCorrection(actual, ideal, mostGain, upTo));
    }
    picture.check();
    if (picture.png() != null) {
      LoadingSheet.draw(actual, correction, picture.png(), picture.replace());
    }
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      Json.print(out, asMap(actual, correction));
    } else {
      print(actual, correction, out);
    }
    out.flush();
    return ExitCode.DONE;
  }

  private void print(LoadedCoil actual, LoadCorrection correction, PrintWriter out) {
    head("captured", actual, out);
    if (correction != null) {
      head("ideal", correction.ideal(), out);
    }
    out.println(
        correction == null
            ? "       Hz   captured"
            : "       Hz   captured      ideal   correction   (dB re 1 kHz)");
    for (double hertz : LoadingSheet.HERTZ) {
      out.println(
          correction == null
              ? String.format(Locale.ROOT, "%9.0f  %9.2f", hertz, round(actual.gainDb(hertz)))
              : String.format(
                  Locale.ROOT,
                  "%9.0f  %9.2f  %9.2f  %11.2f",
                  hertz,
                  round(actual.gainDb(hertz)),
                  round(correction.ideal().gainDb(hertz)),
                  round(correction.gainDb(hertz))));
    }
    if (picture.png() != null) {
      out.println("  picture   " + picture.png());
    }
  }

  /** Without a negative zero. */
  private static double round(double db) {
    return Math.rint(100 * db) / 100 + 0.0;
  }

  private static void head(String name, LoadedCoil coil, PrintWriter out) {
    out.println(
        String.format(
            Locale.ROOT,
            "%s: %.4g mH, %.4g ohm into %.5g ohm, %.4g pF: corner %.0f Hz, Q %.3f, %s, half power at %.0f Hz, loss %.2f dB",
            name,
            1e3 * coil.henry(),
            coil.coilOhms(),
            coil.loadOhms(),
            1e12 * coil.farad(),
            coil.cornerHertz(),
            coil.quality(),
            coil.peaks()
                ? String.format(
                    Locale.ROOT, "peak %+.2f dB at %.0f Hz", coil.peakDb(), coil.peakHertz())
                : "no peak",
            coil.halfPowerHertz(),
            -coil.lossDb()));
  }

  private static Map<String, Object> asMap(LoadedCoil actual, LoadCorrection correction) {
    Map<String, Object> result = new LinkedHashMap<>();
    result.put("loading", 1);
    result.put("captured", asMap(actual));
    result.put("ideal", correction == null ? null : asMap(correction.ideal()));
    List<Map<String, Object>> rows = new ArrayList<>();
    for (double hertz : LoadingSheet.HERTZ) {
      Map<String, Object> row = new LinkedHashMap<>();
      row.put("hertz", hertz);
      row.put("capturedDb", actual.gainDb(hertz));
      if (correction != null) {
        row.put("idealDb", correction.ideal().gainDb(hertz));
        row.put("correctionDb", correction.gainDb(hertz));
      }
      rows.add(row);
    }
    result.put("response", rows);
    return result;
  }

  private static Map<String, Object> asMap(LoadedCoil coil) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("millihenry", 1e3 * coil.henry());
    map.put("coilOhms", coil.coilOhms());
    map.put("loadOhms", coil.loadOhms());
    map.put("picofarad", 1e12 * coil.farad());
    map.put("cornerHertz", coil.cornerHertz());
    map.put("q", coil.quality());
    map.put("peakHertz", coil.peakHertz());
    map.put("peakDb", coil.peakDb());
    map.put("halfPowerHertz", coil.halfPowerHertz());
    map.put("lossDb", -coil.lossDb());
    return map;
  }
}
