package org.groovemend.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.job.Treatment;
import org.groovemend.stage.CaptureCurve;
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
              + " hum (of the mains), rumble (with warp and constant offset), mono (the walls of a mono groove joined), noise. Default: clicks, thumps, noise.")
  private List<String> stages;

  @Option(
      names = "--captured",
      paramLabel = "HOW",
      description =
          "How the transfer was made: riaa (through a playback curve), flat, or unknown (its clicks are asked). Default: unknown.")
  private String captured;

  @Option(
      names = "--noise-db",
      paramLabel = "DB",
      description = "How far the surface noise goes down, in dB; 0 leaves it alone. Default: 8.")
  private Double noiseDb;

  Treatment treatment() throws java.io.IOException {
    Treatment chosen = file == null ? Treatment.defaults() : TreatmentFile.read(file);
    return Usage.check(
        () -> {
          Treatment t = chosen;
          if (captured != null) {
            t = t.withCaptured(curve(captured));
          }
          if (stages != null) {
            t = t.withStages(stages(stages));
          }
          if (noiseDb != null) {
            t = t.withNoise(t.noise().withReductionDb(noiseDb));
          }
          return t;
        });
  }

  static CaptureCurve curve(String text) {
    for (CaptureCurve curve : CaptureCurve.values()) {
      if (curve.key().equals(text)) {
        return curve;
      }
    }
    throw new IllegalArgumentException("captured \"" + text + "\" is not riaa, flat or unknown");
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
