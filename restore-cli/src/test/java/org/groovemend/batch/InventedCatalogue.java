package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.groovemend.job.restore.Treatment;

/** A catalogue of sides that were never heard, for tests of what is made of it. */
public final class InventedCatalogue {

  private static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");

  private InventedCatalogue() {}

  /**
   * Writes one. Sides are normally spread about what is usual; some are made to stand out: number 5
   * (repairs at onsets), 11 (noise floor), 17 (channels); number 23 failed, 29 waits.
   *
   * @param folder that is there
   * @param sides 30 or more
   */
  public static void write(Path folder, int sides) throws IOException {
    Random random = new Random(1);
    List<PlannedSide> planned = new ArrayList<>();
    OutputNames names = new OutputNames();
    for (int i = 0; i < sides; i++) {
      String place = String.format("shelf/box%02d/side %04d ü.wav", i / 20, i);
      FoundSide found = new FoundSide(Path.of("/nowhere").resolve(place), place, 1_000_000, 77);
      SideOrder order =
          new SideOrder(
              found,
              "D" + i / 2,
              i % 2 == 0 ? "A" : "B",
              i % 3 == 0 ? "lp" : "shellac",
              Map.of(),
              Treatment.defaults(),
              null,
              null);
      planned.add(
          new PlannedSide(
              order, names.give(place), "k", PlannedSide.Why.NEW, false, null, 1.5, 2000));
    }
    try (Catalogue catalogue = Catalogue.open(folder.resolve(Catalogue.NAME))) {
      long run =
          catalogue.begin(
              new RunFacts("test", 2, 1 << 20, sides, 0, sides),
              NOW,
              Map.of("shelf", "/nowhere/shelf"),
              planned);
      for (int i = 0; i < sides; i++) {
        PlannedSide side = planned.get(i);
        if (i == 29) {
          continue;
        }
        catalogue.started(run, side, NOW);
        if (i == 23) {
          catalogue.failed(
              side, new SideFailure("inputRefused", "It is <no> \"sound\", but text."), 1, NOW);
        } else {
          catalogue.done(side, "test", result(side, i, random), NOW);
        }
      }
      catalogue.end(run, sides - 2, 1, "over", NOW);
    }
  }

  private static SideResult result(PlannedSide side, int i, Random random) {
    double lp = i % 3 == 0 ? -8 : 0;
    Map<String, Object> measures = new LinkedHashMap<>();
    measures.put("rate_hz", 44_100);
    measures.put("frames", (long) (44_100 * (180 + 10 * random.nextGaussian())));
    measures.put("channels", 2);
    long edits = Math.round(Math.exp(6 + 0.4 * random.nextGaussian()));
    measures.put("edits", edits);
    measures.put("edits_per_minute", edits / 3.0);
    measures.put("clipped_samples", 0);
    measures.put("clipped_runs", 0);
    measures.put("removed_dbfs", -45 + random.nextGaussian());
    measures.put("rms_dbfs", -20 + random.nextGaussian());
    measures.put("channel_difference_db", i == 17 ? 14.5 : 0.3 * random.nextGaussian());
    double noise = -48 + lp + random.nextGaussian() + (i == 11 ? 19 : 0);
    measures.put("noise_before_dbfs", noise);
    measures.put("noise_after_dbfs", noise - 10 + 0.5 * random.nextGaussian());
    measures.put("edits_left_share", 0.5 + 0.02 * random.nextGaussian());
    measures.put("repairs_on_onsets", i == 5 ? 6.2 : Math.exp(0.15 * random.nextGaussian()));
    measures.put("repairs_on_onsets_z", i == 5 ? 14.0 : random.nextGaussian());
    return new SideResult(
        "0".repeat(64),
        side.output().name() + ".ledger.jsonl",
        "1".repeat(64),
        10,
        20,
        3.5,
        measures);
  }
}
