package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.proof.Verify;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.stage.Crew;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LeftPlacesTest {
  private static final AudioFormat FORMAT = AudioFormat.pcm(44_100, 1, 16);

  @TempDir Path folder;

  private RestoreOutcome restore(int burstFrames) throws Exception {
    Random random = new Random(1);
    int frames = 2 * FORMAT.sampleRateHz();
    long[][] words = new long[1][frames];
    for (int n = 0; n < frames; n++) {
      double v = 6000 * StrictMath.sin(n * 0.05) + 30 * random.nextGaussian();
      if (n >= 40_000 && n < 40_000 + burstFrames) {
        v += 6000 * random.nextGaussian();
      }
      words[0][n] = Math.round(Math.max(-32_768, Math.min(32_767, v)));
    }
    Path file = folder.resolve("side" + burstFrames + ".wav");
    try (WavWriter writer =
        WavWriter.create(file, FORMAT, frames, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, frames);
    }
    return Restore.run(
        new RestoreRequest(file, folder, Treatment.defaults(), null, false, "test", Instant.EPOCH),
        Crew.alone(),
        Progress.SILENT);
  }

  /** 30 ms of scrape: named in ledger, page and remarks, and no edit lies there. */
  @Test
  void aPlaceTooLongToBeFilledIsNamedEverywhereAndLeft() throws Exception {
    RestoreOutcome outcome = restore(1_323);
    Ledger ledger = Ledger.open(outcome.ledgerFile());
    Map<String, Object> found =
        ledger.analyses().stream()
            .filter(a -> a.name().equals(LeftPlaces.FINDING))
            .findFirst()
            .orElseThrow()
            .result();
    assertThat(found.get("places")).isEqualTo(1L);
    Map<?, ?> place = (Map<?, ?>) ((List<?>) found.get("list")).get(0);
    long start = (Long) place.get("start");
    long end = (Long) place.get("end");
    assertThat(start).isBetween(39_950L, 40_050L);
    assertThat(end).isBetween(41_270L, 41_380L);
    ledger.forEachEdit(e -> assertThat(e.end() <= start || e.start() >= end).isTrue());
    String sentence = "1 place longer than 8 ms was left alone";
    assertThat(outcome.remarks()).anyMatch(r -> r.startsWith(sentence) && r.contains("0.907 s"));
    assertThat(Files.readString(outcome.reportFile())).contains(sentence);
    assertThat(Verify.failed(Verify.run(outcome.ledgerFile(), new LedgerFiles(null, null, null))))
        .isFalse();
  }

  @Test
  void withoutSuchAPlaceNothingIsSaid() throws Exception {
    RestoreOutcome outcome = restore(0);
    assertThat(Ledger.open(outcome.ledgerFile()).analyses())
        .noneMatch(a -> a.name().equals(LeftPlaces.FINDING));
    assertThat(outcome.remarks()).noneMatch(r -> r.contains("left alone"));
  }

  /** What two stages leave is one place; more than ten are counted, not all told. */
  @Test
  void placesAreCountedOnceAndNotAllTold() {
    LeftPlaces places = new LeftPlaces();
    for (int i = 0; i < 12; i++) {
      places.add(StageId.CLICKS, new LeftAlone(0, 10_000 * i, 10_000 * i + 500));
      places.add(StageId.CRACKLE, new LeftAlone(0, 10_000 * i + 10, 10_000 * i + 490));
    }
    assertThat(places.finding().places()).isEqualTo(12);
    assertThat(places.finding().frames()).isEqualTo(6_000);
    assertThat(places.sentence(FORMAT, 8)).contains("12 places").contains("and 2 more");
  }
}
