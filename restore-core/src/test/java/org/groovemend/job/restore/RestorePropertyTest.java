package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.file.AwkwardFiles;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.chain.Progress;
import org.groovemend.click.ClickParameters;
import org.groovemend.click.CrackleParameters;
import org.groovemend.hum.HumParameters;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.rumble.RumbleParameters;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.groovemend.surfacenoise.NoiseParameters;
import org.groovemend.thump.ThumpParameters;
import org.groovemend.walls.MonoParameters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Random sides in random containers, lengths, damage and treatments: everything verifies and the
 * original file comes back byte for byte, without the original at hand.
 */
class RestorePropertyTest {

  /** As many as a build has patience for; the thousand of a release run with -Dsides=1000. */
  private static final int CASES = Integer.getInteger("sides", 120);

  private static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");

  @TempDir Path folder;

  @Test
  void everySideComesBack() throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    try {
      for (long seed = 0; seed < CASES; seed++) {
        try {
          comesBack(seed, pool);
        } catch (IOException | RuntimeException | AssertionError e) {
          fail("seed " + seed + ": " + e, e);
        }
      }
    } finally {
      pool.shutdown();
    }
  }

  private void comesBack(long seed, ExecutorService pool) throws Exception {
    Path work = Files.createDirectory(folder.resolve("s" + seed));
    Random random = new Random(seed);
    int most = random.nextInt(10) == 0 ? 40_000 : random.nextInt(3) == 0 ? 6_000 : 300;
    Path side = work.resolve("side." + seed);
    long frames = makeSide(side, seed, most, random);
    byte[] original = Files.readAllBytes(side);
    Treatment treatment = treatment(random);
    TimeRange leadIn = null;
    Crew crew = random.nextBoolean() ? Crew.alone() : new Crew(pool, 1 + random.nextInt(4));
    Path out = work.resolve("out");
    RestoreOutcome outcome =
        Restore.run(
            new RestoreRequest(side, out, treatment, leadIn, false, "test", NOW),
            crew,
            Progress.SILENT,
            seed % 50 == 0 ? ReportWish.WITH_CLIPS : ReportWish.NONE);
    assertThat(outcome.original().frames()).isEqualTo(frames);
    assertThat(Files.readAllBytes(side)).isEqualTo(original);

    LedgerFiles given = new LedgerFiles(side, null, null);
    List<Check> checks = Verify.run(outcome.ledgerFile(), given);
    assertThat(checks).noneMatch(check -> check.outcome() == Check.Outcome.FAILS);

    Path away = work.resolve("moved-away");
    Files.move(side, away);
    Path reverted = work.resolve("reverted");
    Revert.run(outcome.ledgerFile(), new LedgerFiles(null, null, null), reverted, false);
    assertThat(Files.mismatch(reverted, away)).isEqualTo(-1);
    clear(work);
  }

  /** Writes a side in a random container. */
  private static long makeSide(Path side, long seed, int most, Random random) throws IOException {
    if (random.nextInt(5) != 0) {
      AwkwardFiles.Made made = AwkwardFiles.make(seed, most, WornWords::of);
      Files.write(side, made.file());
      return made.words()[0].length;
    }
    AudioFormat format = AwkwardFiles.format(random);
    if (format.coding() == SampleCoding.FLOAT) {
      format = AudioFormat.pcm(format.sampleRateHz(), format.channels(), 24);
    } else {
      format = AudioFormat.pcm(format.sampleRateHz(), format.channels(), format.containerBits());
    }
    int frames = 1 + random.nextInt(most);
    long[][] words = WornWords.of(random, format, frames);
    try (FlacWriter writer = new FlacWriter(side, format, frames, null, 1)) {
      writer.write(words, 0, frames);
    }
    return frames;
  }

  private static Treatment treatment(Random random) {
    List<StageId> stages = new ArrayList<>(List.of(StageId.values()));
    int choice = random.nextInt(4);
    if (choice == 0) {
      stages.remove(StageId.NOISE);
    } else if (choice == 1) {
      stages.remove(StageId.CLICKS);
    }
    if (random.nextInt(4) != 0) {
      stages.remove(StageId.CRACKLE);
    }
    if (random.nextBoolean()) {
      stages.remove(StageId.RUMBLE);
    }
    if (random.nextBoolean()) {
      stages.remove(StageId.CURVE);
    }
    if (random.nextBoolean()) {
      stages.remove(StageId.MONO);
    }
    ClickParameters clicks =
        random.nextBoolean() ? ClickParameters.defaults() : ClickParameters.gentle();
    NoiseParameters noise = NoiseParameters.defaults().withReductionDb(random.nextInt(30));
    CaptureCurve curve =
        List.of(CaptureCurve.RIAA, CaptureCurve.FLAT, CaptureCurve.UNKNOWN).get(random.nextInt(3));
    return new Treatment(
        curve,
        stages,
        clicks,
        CrackleParameters.defaults(),
        ThumpParameters.defaults(),
        HumParameters.defaults(),
        RumbleParameters.defaults(),
        CurveParameters.defaults()
            .withApply("riaa")
            .withUndo(curve == CaptureCurve.RIAA ? "riaa" : "flat")
            .withGainDb(-26),
        MonoParameters.defaults(),
        noise,
        random.nextLong());
  }

  private static void clear(Path work) throws IOException {
    try (Stream<Path> all = Files.walk(work)) {
      for (Path path : all.sorted((a, b) -> b.compareTo(a)).toList()) {
        Files.delete(path);
      }
    }
  }
}
