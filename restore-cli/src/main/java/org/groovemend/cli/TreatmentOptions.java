package org.groovemend.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.job.restore.Treatment;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.playback.UnknownCurveException;
import org.groovemend.stage.StageId;
import picocli.CommandLine.Option;

/** How a treatment is chosen: a file, then single options over it. */
final class TreatmentOptions {

  @Option(
      names = "--treatment",
      paramLabel = "FILE",
      description = "Treatment file (YAML), as 'groovemend treatment' prints it.")
  private Path file;

  @Option(
      names = "--stages",
      paramLabel = "NAMES",
      split = ",",
      description =
          "Stages to apply, comma-separated: clicks, crackle (a second pass for sides that still crackle), thumps,"
              + " hum (of the mains), rumble (with warp and constant offset), curve (of playback, see --curve), mono (the walls of a mono groove joined), noise. Default: clicks, thumps, noise.")
  private List<String> stages;

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      description =
          "How the transfer was made: riaa or another curve, said as for --curve, flat, or unknown (its clicks are asked between riaa"
              + " and flat). Default: unknown.")
  private String captured;

  @Option(
      names = "--noise-db",
      paramLabel = "DB",
      description = "How far the surface noise goes down, in dB; 0 leaves it alone. Default: 8.")
  private Double noiseDb;

  @Option(
      names = "--curve",
      paramLabel = "CURVE",
      description =
          "Playback curve that the stage curve applies: a name of 'groovemend curve', TURNOVER/ROLLOFF[/SHELF] (hertz, dB at"
              + " 10 kHz, hertz), or us:SHELF,TURNOVER,TREBLE. Default: none.")
  private String curve;

  @Option(
      names = "--undo-curve",
      paramLabel = "CURVE",
      description = "Curve of the transfer that the stage curve takes back first. Default: none.")
  private String undoCurve;

  @Option(
      names = "--speeds",
      paramLabel = "DISC/CAPTURE",
      description =
          "Speed the disc was made for and speed at which it was captured, if they differ, such as 78.26/45: the constants of"
              + " the curve are scaled. The file is not resampled.")
  private String speeds;

  @Option(
      names = "--loading",
      paramLabel = "MH/OHM:OHM/PF:OHM/PF",
      description =
          "Loading of the pick-up that the stage curve corrects: coil, load it was captured into, load it should have had, such as"
              + " 500/800:47000/250:47000/150; refused above --loading-most-gain. 'groovemend loading' shows it. Default: none.")
  private String loading;

  @Option(
      names = "--loading-most-gain",
      paramLabel = "DB",
      description =
          "Most gain that this correction may take anywhere below half the sampling rate, in dB. Default: 6.")
  private Double loadingMostGain;

  @Option(
      names = "--curve-gain",
      paramLabel = "DB",
      description = "Gain of the stage curve, -60 to 20 dB. Default: 0.")
  private Double curveGain;

  @Option(
      names = "--curve-reason",
      paramLabel = "WORDS",
      description = "Why this curve; goes into the ledger.")
  private String curveReason;

  Treatment treatment() throws java.io.IOException {
    Treatment chosen = file == null ? Treatment.defaults() : TreatmentFile.read(file);
    return Usage.check(
        () -> {
          Treatment t = chosen;
          if (captured != null) {
            t = t.withCaptured(captured(captured));
          }
          if (stages != null) {
            t = t.withStages(stages(stages));
          }
          if (noiseDb != null) {
            t = t.withNoise(t.noise().withReductionDb(noiseDb));
          }
          t = t.withCurve(curve(t.curve()));
          if (curveAsked() && !t.has(StageId.CURVE)) {
            throw new IllegalArgumentException(
                "options of the curve were given, but the stage curve is not among those to apply; name it in --stages,"
                    + " such as --stages clicks,thumps,curve,noise");
          }
          return t;
        });
  }

  private boolean curveAsked() {
    return curve != null
        || undoCurve != null
        || speeds != null
        || loading != null
        || loadingMostGain != null
        || curveGain != null
        || curveReason != null;
  }

  private CurveParameters curve(CurveParameters given) {
    CurveParameters p = given;
    if (curve != null) {
      p = p.withApply(curve);
    }
    if (undoCurve != null) {
      p = p.withUndo(undoCurve);
    }
    if (speeds != null) {
      double[] both = speeds(speeds);
      p = p.withSpeeds(both[0], both[1]);
    }
    if (loadingMostGain != null) {
      p = p.withLoadingMostDb(loadingMostGain);
    }
    if (loading != null) {
      p = p.withLoading(loading);
    }
    if (curveGain != null) {
      p = p.withGainDb(curveGain);
    }
    return curveReason == null ? p : p.withReason(curveReason);
  }

  /** Speed of the disc and of the capture. */
  static double[] speeds(String text) {
    String[] parts = text.split("/", -1);
    try {
      if (parts.length == 2) {
        return new double[] {Double.parseDouble(parts[0]), Double.parseDouble(parts[1])};
      }
    } catch (NumberFormatException e) {
      // told below
    }
    throw new IllegalArgumentException(
        "--speeds \"" + text + "\" is not DISC/CAPTURE in turns a minute, such as 78.26/45");
  }

  /** How a transfer was made, with what was probably meant if that is no such word. */
  static CaptureCurve captured(String text) {
    try {
      return CaptureCurve.of(text);
    } catch (UnknownCurveException e) {
      List<String> words = new ArrayList<>(e.known());
      words.add(CaptureCurve.UNKNOWN.key());
      throw new IllegalArgumentException(
          "captured \""
              + text
              + "\" is not riaa, flat or unknown, nor another curve"
              + Nearest.hint(text, words)
              + "; 'groovemend curve' lists them, or say TURNOVER/ROLLOFF, such as 400/12",
          e);
    }
  }

  static List<StageId> stages(List<String> names) {
    List<StageId> found = new ArrayList<>();
    for (String name : names) {
      found.add(
          StageId.ofKey(name.trim())
              .orElseThrow(
                  () -> {
                    List<String> all = new ArrayList<>();
                    for (StageId id : StageId.values()) {
                      all.add(id.key());
                    }
                    return new IllegalArgumentException(
                        "there is no stage \""
                            + name
                            + "\""
                            + Nearest.hint(name, all)
                            + "; stages are "
                            + String.join(", ", all));
                  }));
    }
    return found;
  }
}
