package org.groovemend.evaluate;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.simulate.RestraintPiece;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/**
 * Measures restraint piece by piece for the table of quality.md: arguments are a folder, seconds,
 * rates, seeds, captured keys (each comma-separated) and, if wanted, stages and names of pieces.
 */
public final class RestraintRunner {
  private RestraintRunner() {}

  public static void main(String[] args) throws IOException {
    Path folder = Files.createDirectories(Path.of(args[0]));
    double seconds = Double.parseDouble(args[1]);
    Treatment base = Treatment.defaults();
    if (args.length > 5) {
      base =
          base.withStages(
              Arrays.stream(args[5].split(",")).map(k -> StageId.ofKey(k).orElseThrow()).toList());
    }
    try (Writer out = Files.newBufferedWriter(folder.resolve("restraint.csv"))) {
      for (String rate : args[2].split(",")) {
        for (RestraintPiece piece : RestraintPiece.values()) {
          if (args.length > 6 && !args[6].contains(piece.name())) {
            continue;
          }
          for (String seed : args[3].split(",")) {
            Sound sound =
                Sound.restraint(piece, Integer.parseInt(rate), seconds, Long.parseLong(seed));
            Path file = folder.resolve(piece.name() + "-" + rate + "-" + seed + ".wav");
            Bench.write(sound.samples(), sound.sampleRateHz(), file);
            for (String captured : args[4].split(",")) {
              out.write(line(piece, sound, seed, captured, file, base));
              out.flush();
            }
          }
        }
      }
    }
  }

  private static String line(
      RestraintPiece piece, Sound sound, String seed, String captured, Path file, Treatment base)
      throws IOException {
    long begun = System.nanoTime();
    RestoreOutcome outcome =
        Restore.run(
            new RestoreRequest(
                file,
                file.getParent(),
                base.withCaptured(CaptureCurve.of(captured)),
                null,
                true,
                "runner",
                Instant.EPOCH),
            Crew.alone(),
            Progress.SILENT,
            ReportWish.NONE);
    double took = (System.nanoTime() - begun) / 1e9;
    Map<String, Integer> stages = new TreeMap<>();
    List<String> places = new ArrayList<>();
    Ledger.open(outcome.ledgerFile())
        .forEachEdit(
            (LedgerEdit e) -> {
              stages.merge(e.stage(), 1, Integer::sum);
              if (places.size() < 12) {
                places.add(
                    String.format(
                        Locale.ROOT,
                        "%s@%.4f/%d+%d(%.1f>%.1f)",
                        e.stage(),
                        e.start() / (double) sound.sampleRateHz(),
                        e.channel(),
                        e.end() - e.start(),
                        e.statistic(),
                        e.threshold()));
              }
            });
    int all = stages.values().stream().mapToInt(Integer::intValue).sum();
    double minutes = sound.frames() / (double) sound.sampleRateHz() / 60;
    double share = 100.0 * outcome.changedSamples() / (2.0 * sound.frames());
    return String.format(
        Locale.ROOT,
        "%-12s %d s%s %-7s repairs %3d = %6.1f/min changed %.4f %% in %.1f s %s %s%n",
        piece,
        sound.sampleRateHz(),
        seed,
        captured,
        all,
        all / minutes,
        share,
        took,
        stages,
        places);
  }
}
