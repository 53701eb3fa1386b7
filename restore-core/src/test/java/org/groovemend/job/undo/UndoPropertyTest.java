package org.groovemend.job.undo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.decisions.Decision;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.LedgerName;
import org.groovemend.decisions.Verdict;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Random small sides, really restored, and random sequences of taking back, doing again and running
 * again: the order does not matter, every copy gives the original back byte for byte, and every
 * lineage holds.
 */
@Tag("long")
class UndoPropertyTest {

  /** As many as a build has patience for; the thousand of a release run with -Dsides=1000. */
  private static final int SIDES = Integer.getInteger("sides", 120);

  private static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");
  private static final LedgerFiles BESIDE = new LedgerFiles(null, null, null);

  @TempDir Path folder;

  private final Tally tally = new Tally();

  private static final class Tally {
    private int withEdits;
    private int overlapping;
    private int whole;
    private int patched;
    private int undos;
  }

  @Test
  void undoIsExactInAnyOrder() throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    int seed = 0;
    try {
      // about a third of them has nothing to repair, and so nothing to take back
      while (tally.withEdits < SIDES && seed < 2 * SIDES) {
        seed++;
        try {
          check(seed, pool);
        } catch (IOException | RuntimeException | AssertionError e) {
          fail("seed " + seed + ": " + e, e);
        }
      }
    } finally {
      pool.shutdown();
    }
    // the generator draws what it should
    assertThat(tally.withEdits).isEqualTo(SIDES);
    assertThat(tally.overlapping).isGreaterThan(SIDES / 20);
    assertThat(tally.whole).isBetween(seed / 5, seed * 4 / 5);
    assertThat(tally.patched).isGreaterThan(SIDES / 4);
    assertThat(tally.undos).isGreaterThan(2 * SIDES);
  }

  private void check(long seed, ExecutorService pool) throws Exception {
    Random random = new Random(seed);
    Path work = Files.createDirectory(folder.resolve("s" + seed));
    Path side = work.resolve("side.wav");
    makeSide(side, random);
    byte[] original = Files.readAllBytes(side);
    Crew crew = random.nextBoolean() ? Crew.alone() : new Crew(pool, 1 + random.nextInt(3));
    RestoreOutcome restored =
        Restore.run(
            new RestoreRequest(
                side, work.resolve("out"), treatment(random), null, false, "test", NOW),
            crew,
            Progress.SILENT,
            ReportWish.NONE);
    Files.delete(side);
    Path root = restored.ledgerFile();
    List<LedgerEdit> edits = edits(root);
    boolean whole = restored.removed() != null;
    tally.whole += whole ? 1 : 0;
    if (!edits.isEmpty()) {
      tally.withEdits++;
      Set<Long> a = some(edits, random);
      Set<Long> b = some(edits, random);
      b.removeAll(a);
      Set<Long> both = new TreeSet<>(a);
      both.addAll(b);
      int law = random.nextInt(4);
      if (law == 0) {
        // nothing taken back is the parent again
        same(undo(root, Set.of(), "none", crew, true), root);
      }
      Path onlyA = undo(root, a, "a", crew, false);
      requireSound(onlyA, original, work);
      if (law == 1) {
        // doing b again after both is the parent with other decisions
        requireSound(undo(root, both, "ab", crew, false), original, work);
        same(undo(root, a, "a-again", crew, random.nextBoolean()), onlyA);
      }
      if (law == 2 && !whole) {
        // words put back are what the treatment gives when it is run again
        same(undo(root, a, "a-replayed", crew, true), onlyA);
        requireOriginalWhereUndone(side, original, root, onlyA, a);
      }
      if (law >= 2) {
        // one after the other, in either order
        Path union = undo(root, both, "ab", crew, false);
        Path onlyB = undo(root, b, "b", crew, false);
        Path aThenB = undo(onlyA, renumbered(b, a), "a-b", crew, random.nextInt(4) == 0);
        same(aThenB, union);
        same(undo(onlyB, renumbered(a, b), "b-a", crew, false), union);
        requireSound(aThenB, original, work);
      }
    }
    clear(work);
  }

  /** Takes edits back; the parent itself if there are none to take. */
  private Path undo(Path ledger, Set<Long> numbers, String name, Crew crew, boolean alwaysReplay)
      throws Exception {
    if (numbers.isEmpty() && !alwaysReplay) {
      return ledger;
    }
    Ledger parent = Ledger.open(ledger);
    TreeMap<Long, Decision> decisions = new TreeMap<>();
    for (long number : numbers) {
      decisions.put(number, new Decision(number, Verdict.UNDO, "", NOW.toString()));
    }
    Path file = ledger.resolveSibling(name + ".wanted.json");
    Files.write(
        file,
        DecisionDocument.of(new DecisionFile(LedgerName.of(parent), "", List.of(), decisions, null))
            .bytes());
    UndoRequest request =
        new UndoRequest(ledger, BESIDE, List.of(), file, null, null, name, false, "test", NOW);
    UndoOutcome outcome = new Undo(request, crew, Progress.SILENT, Replay::of, alwaysReplay).run();
    assertThat(outcome.counts().undone()).isEqualTo(numbers.size());
    tally.undos++;
    tally.overlapping += outcome.counts().overlap() ? 1 : 0;
    tally.patched += outcome.counts().replay() || alwaysReplay ? 0 : 1;
    return outcome.ledgerFile();
  }

  /** Two copies hold the same samples, and their ledgers the same edits. */
  private static void same(Path a, Path b) throws IOException {
    Ledger one = Ledger.open(a);
    Ledger other = Ledger.open(b);
    assertThat(one.totals().restored().samplesSha256())
        .isEqualTo(other.totals().restored().samplesSha256());
    assertThat(one.totals().changedSamples()).isEqualTo(other.totals().changedSamples());
    assertThat(one.totals().clippedSamples()).isEqualTo(other.totals().clippedSamples());
    if (one.totals().removed() != null) {
      assertThat(one.totals().removed().sha256()).isEqualTo(other.totals().removed().sha256());
    }
    assertThat(edits(a)).isEqualTo(edits(b));
  }

  private static List<LedgerEdit> edits(Path ledger) throws IOException {
    List<LedgerEdit> edits = new ArrayList<>();
    Ledger.open(ledger).forEachEdit(edits::add);
    return edits;
  }

  private static Set<Long> some(List<LedgerEdit> edits, Random random) {
    Set<Long> some = new TreeSet<>();
    int share = 1 + random.nextInt(4);
    for (LedgerEdit edit : edits) {
      if (random.nextInt(share) == 0) {
        some.add(edit.number());
      }
    }
    return some;
  }

  /** Numbers of a ledger in that of its child without some. */
  private static Set<Long> renumbered(Set<Long> numbers, Set<Long> without) {
    Set<Long> there = new TreeSet<>();
    for (long number : numbers) {
      there.add(number - without.stream().filter(gone -> gone < number).count());
    }
    return there;
  }

  private static void requireSound(Path ledger, byte[] original, Path work) throws Exception {
    List<Check> checks = Verify.run(ledger, BESIDE);
    assertThat(checks).noneMatch(check -> check.outcome() == Check.Outcome.FAILS);
    if (Ledger.open(ledger).header().parent() != null) {
      assertThat(checks).anyMatch(check -> check.name().equals("parent-edits"));
      assertThat(checks)
          .filteredOn(check -> check.name().startsWith("parent-"))
          .allMatch(check -> check.outcome() == Check.Outcome.HOLDS);
    }
    Path back = work.resolve("back");
    Revert.run(ledger, BESIDE, back, true);
    assertThat(Files.readAllBytes(back)).isEqualTo(original);
  }

  /**
   * Where nothing that stays lies, the words are the original's; elsewhere they are not touched.
   */
  private static void requireOriginalWhereUndone(
      Path side, byte[] original, Path root, Path child, Set<Long> undone) throws IOException {
    Files.write(side, original);
    try (SideReader before = SideFiles.open(side);
        SideReader all = SideFiles.open(beside(root));
        SideReader some = SideFiles.open(beside(child))) {
      int frames = (int) before.frames();
      int channels = before.format().channels();
      long[][] x = new long[channels][frames];
      long[][] y = new long[channels][frames];
      long[][] z = new long[channels][frames];
      before.readWords(0, frames, x, 0);
      all.readWords(0, frames, y, 0);
      some.readWords(0, frames, z, 0);
      boolean[][] gone = new boolean[channels][frames];
      boolean[][] kept = new boolean[channels][frames];
      for (LedgerEdit edit : edits(root)) {
        boolean[][] which = undone.contains(edit.number()) ? gone : kept;
        java.util.Arrays.fill(which[edit.channel()], (int) edit.start(), (int) edit.end(), true);
      }
      for (int c = 0; c < channels; c++) {
        for (int i = 0; i < frames; i++) {
          if (!kept[c][i]) {
            assertThat(z[c][i]).as("channel %d, frame %d", c, i).isEqualTo(x[c][i]);
          } else if (!gone[c][i]) {
            assertThat(z[c][i]).as("channel %d, frame %d", c, i).isEqualTo(y[c][i]);
          }
        }
      }
    } finally {
      Files.delete(side);
    }
  }

  private static Path beside(Path ledger) throws IOException {
    return ledger.resolveSibling(Ledger.open(ledger).totals().restored().name());
  }

  /** A little music in noise, and clicks of all sizes, some upon others. */
  private static void makeSide(Path file, Random random) throws IOException {
    int channels = 1 + random.nextInt(2);
    AudioFormat format =
        AudioFormat.pcm(
            random.nextBoolean() ? 8_000 : 22_050, channels, random.nextBoolean() ? 16 : 24);
    int frames = 1_500 + random.nextInt(4_500);
    double full = 1L << (format.containerBits() - 1);
    int lead = random.nextBoolean() ? frames / 3 : 0;
    int clicks = 1 + random.nextInt(12);
    long[][] words = new long[channels][frames];
    double[][] x = new double[channels][frames];
    for (double[] channel : x) {
      for (int i = 0; i < frames; i++) {
        channel[i] = 0.003 * random.nextGaussian();
        if (i >= lead) {
          channel[i] += 0.1 * Math.sin(0.05 * i) + 0.05 * Math.sin(0.19 * i);
        }
      }
    }
    for (int k = 0; k < clicks; k++) {
      double[] channel = x[random.nextInt(channels)];
      int at = random.nextInt(frames);
      double peak = (random.nextBoolean() ? 1 : -1) * (0.05 + 0.6 * random.nextDouble());
      double width = 1 + random.nextInt(random.nextInt(4) == 0 ? 60 : 5);
      for (int i = at; i < Math.min(frames, at + 5 * width); i++) {
        channel[i] += peak * Math.exp(-(i - at) / width) * Math.cos(1.3 * (i - at));
      }
    }
    for (int c = 0; c < channels; c++) {
      for (int i = 0; i < frames; i++) {
        words[c][i] = (long) Math.max(-full, Math.min(full - 1, Math.rint(x[c][i] * full)));
      }
    }
    try (WavWriter writer =
        WavWriter.create(file, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, frames);
    }
  }

  private static Treatment treatment(Random random) {
    List<StageId> stages = new ArrayList<>(List.of(StageId.CLICKS));
    if (random.nextBoolean()) {
      stages.add(StageId.CRACKLE);
    }
    if (random.nextBoolean()) {
      stages.add(StageId.THUMPS);
    }
    if (random.nextBoolean()) {
      for (StageId stage :
          List.of(StageId.HUM, StageId.RUMBLE, StageId.CURVE, StageId.MONO, StageId.NOISE)) {
        if (random.nextInt(3) == 0) {
          stages.add(stage);
        }
      }
      stages.add(random.nextBoolean() ? StageId.NOISE : StageId.CURVE);
    }
    CaptureCurve captured =
        List.of(CaptureCurve.RIAA, CaptureCurve.FLAT, CaptureCurve.UNKNOWN).get(random.nextInt(3));
    return Treatment.defaults()
        .withStages(stages)
        .withCaptured(captured)
        .withCurve(
            CurveParameters.defaults()
                .withApply("riaa")
                .withUndo(captured == CaptureCurve.RIAA ? "riaa" : "flat")
                .withGainDb(-26));
  }

  private static void clear(Path work) throws IOException {
    try (Stream<Path> all = Files.walk(work)) {
      for (Path path : all.sorted((a, b) -> b.compareTo(a)).toList()) {
        Files.delete(path);
      }
    }
  }
}
