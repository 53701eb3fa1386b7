package org.groovemend.job.undo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.chain.SignalWatch;
import org.groovemend.click.BenchWav;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.ledger.VerificationException;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveParameters;
import org.groovemend.sealed.SealedDocumentException;
import org.groovemend.stage.Crew;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

@Tag("long")
class UndoTest {

  private static final int RATE = 22_050;
  private static final int FRAMES = 9 * RATE / 2;
  private static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");
  private static final Instant LATER = Instant.parse("2026-03-02T12:00:00Z");
  private static final LedgerFiles BESIDE = new LedgerFiles(null, null, null);

  @TempDir Path folder;

  /**
   * Four and a half seconds: bare groove, then tones with their hum, a click a quarter second, bare
   * groove.
   */
  private Path side(String name, int channels) throws IOException {
    Random random = new Random(name.hashCode());
    double[][] x = new double[channels][FRAMES];
    double[] common = new double[FRAMES];
    for (int i = 0; i < common.length; i++) {
      double t = i / (double) RATE;
      common[i] = 2e-4 * random.nextGaussian() + 0.002 * Math.sin(2 * Math.PI * 50 * t);
      if (t > 1.8) {
        common[i] +=
            0.1 * Math.sin(2 * Math.PI * 440 * t) + 0.05 * Math.sin(2 * Math.PI * 1250 * t);
      }
    }
    for (int c = 0; c < channels; c++) {
      for (int i = 0; i < common.length; i++) {
        x[c][i] = common[i] + 1e-3 * random.nextGaussian();
      }
      for (int k = 0; k < 8; k++) {
        int at = (int) ((2 + 0.25 * k + 0.02 * random.nextDouble()) * RATE);
        for (int i = 0; i < 12; i++) {
          x[c][at + i] += 0.4 * Math.exp(-i / 3.0) * Math.cos(1.3 * i);
        }
      }
    }
    Path file = folder.resolve(name + ".wav");
    new BenchWav(AudioFormat.pcm(RATE, channels, 16), x).write(file);
    return file;
  }

  /** Ways of treating a side, each with another kind of stage behind the repairs. */
  private enum Way {
    REPAIRS(CaptureCurve.FLAT),
    NOISE(CaptureCurve.UNKNOWN, StageId.NOISE),
    THROUGH_RIAA(CaptureCurve.RIAA, StageId.NOISE),
    HUM(CaptureCurve.FLAT, StageId.HUM, StageId.NOISE),
    CURVE(CaptureCurve.FLAT, StageId.RUMBLE, StageId.CURVE),
    MONO(CaptureCurve.FLAT, StageId.MONO, StageId.NOISE);

    private final Treatment treatment;

    Way(CaptureCurve captured, StageId... signal) {
      List<StageId> stages = new ArrayList<>(List.of(StageId.CLICKS, StageId.THUMPS));
      stages.addAll(Arrays.asList(signal));
      treatment =
          Treatment.defaults()
              .withCaptured(captured)
              .withStages(stages)
              .withCurve(CurveParameters.defaults().withApply("riaa").withGainDb(-26));
    }
  }

  private RestoreOutcome restore(Path side, Treatment treatment, TimeRange leadIn, Path grooveOf)
      throws IOException {
    return Restore.run(
        new RestoreRequest(
            side, folder.resolve("out"), treatment, leadIn, grooveOf, false, "test", NOW),
        Crew.alone(),
        Progress.SILENT,
        ReportWish.NONE);
  }

  private static EditChoice numbers(long... numbers) {
    List<EditChoice.Numbers> all = new ArrayList<>();
    for (long number : numbers) {
      all.add(new EditChoice.Numbers(number, number));
    }
    return choice(all, List.of(), List.of(), List.of(), null);
  }

  private static EditChoice choice(
      List<EditChoice.Numbers> edits,
      List<String> stages,
      List<Integer> channels,
      List<TimeRange> ranges,
      Double below) {
    return new EditChoice(edits, stages, channels, ranges, below, "it was music", "Ada");
  }

  private static UndoRequest request(Path ledger, EditChoice choice, String name) {
    return new UndoRequest(
        ledger, BESIDE, List.of(), null, choice, null, name, false, "test", LATER);
  }

  private static UndoOutcome undo(Path ledger, EditChoice choice, String name) throws Exception {
    return Undo.run(request(ledger, choice, name), Crew.alone(), Progress.SILENT);
  }

  private static UndoOutcome again(Path ledger, EditChoice choice, String name) throws Exception {
    return new Undo(request(ledger, choice, name), Crew.alone(), Progress.SILENT, Replay::of, true)
        .run();
  }

  /** Meets no edit: a stretch before the first click. */
  private static EditChoice none() {
    return choice(List.of(), List.of(), List.of(), List.of(new TimeRange(0, 0.001)), null);
  }

  private static List<LedgerEdit> edits(Path ledger) throws IOException {
    List<LedgerEdit> edits = new ArrayList<>();
    Ledger.open(ledger).forEachEdit(edits::add);
    return edits;
  }

  private static void requireSame(Path ledger, Path other) throws IOException {
    Ledger a = Ledger.open(ledger);
    Ledger b = Ledger.open(other);
    assertThat(a.totals().restored().samplesSha256())
        .isEqualTo(b.totals().restored().samplesSha256());
    assertThat(a.totals().changedSamples()).isEqualTo(b.totals().changedSamples());
    if (a.totals().removed() != null) {
      assertThat(a.totals().removed().sha256()).isEqualTo(b.totals().removed().sha256());
    }
    assertThat(edits(ledger)).isEqualTo(edits(other));
  }

  private void requireSound(Path ledger, Path side) throws Exception {
    assertThat(Verify.run(ledger, new LedgerFiles(side, null, null)))
        .noneMatch(check -> check.outcome() == Check.Outcome.FAILS);
    Path back = folder.resolve("back");
    Revert.run(ledger, BESIDE, back, true);
    assertThat(Files.mismatch(back, side)).isEqualTo(-1);
  }

  private List<String> files() throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      return all.map(file -> folder.relativize(file).toString()).sorted().toList();
    }
  }

  @ParameterizedTest
  @EnumSource(Way.class)
  void everyWayOfTreatingIsRepeatedAndPartlyTakenBack(Way way) throws Exception {
    Path side = side("side-" + way, 2);
    RestoreOutcome first = restore(side, way.treatment, null, null);
    Path root = first.ledgerFile();
    assertThat(edits(root)).hasSizeGreaterThan(7);
    assertThat(first.stagesApplied())
        .hasSize(way.treatment.stages().size()); // none was left out for want of a reason
    requireSame(again(root, none(), "none").ledgerFile(), root);

    Path child = undo(root, numbers(2, 3, 7), null).ledgerFile();
    assertThat(child.getFileName().toString()).isEqualTo("side-" + way + ".undo-1.ledger.jsonl");
    assertThat(edits(child)).hasSize(edits(root).size() - 3);
    assertThat(Ledger.open(child).totals().restored().samplesSha256())
        .isNotEqualTo(Ledger.open(root).totals().restored().samplesSha256());
    requireSound(child, side);
    // findings of the whole treatment stay as they are; those of the run are measured anew
    List<String> names = Ledger.open(child).analyses().stream().map(AnalysisRecord::name).toList();
    List<String> before = Ledger.open(root).analyses().stream().map(AnalysisRecord::name).toList();
    if (way == Way.REPAIRS) {
      assertThat(before).contains("noiseFloor");
      assertThat(names).doesNotContain("noiseFloor");
    } else {
      assertThat(names).containsExactlyElementsOf(before);
    }

    Path grandchild = undo(child, numbers(1), null).ledgerFile();
    assertThat(grandchild.getFileName().toString()).contains(".undo-2.");
    assertThat(Ledger.open(grandchild).header().parent().undoneInAll()).isEqualTo(4);
    requireSound(grandchild, side);
    requireSame(grandchild, undo(root, numbers(1, 2, 3, 7), "at-once").ledgerFile());
    // what was taken back is done again by going to the parent with less
    requireSame(undo(root, numbers(2, 3, 7), "redone").ledgerFile(), child);
    // all of it
    Path all =
        undo(
                root,
                choice(List.of(), List.of("clicks", "thumps"), List.of(), List.of(), null),
                "all")
            .ledgerFile();
    assertThat(edits(all)).isEmpty();
    requireSound(all, side);
    if (way == Way.REPAIRS) {
      assertThat(Ledger.open(all).totals().restored().samplesSha256())
          .isEqualTo(Ledger.open(root).header().original().samplesSha256());
    }
  }

  @Test
  void aStatedLeadInAndTheGrooveOfAnotherSideAreRepeated() throws Exception {
    Path side = side("stated", 1);
    Path root = restore(side, Way.NOISE.treatment, new TimeRange(0.3, 1.7), null).ledgerFile();
    requireSame(again(root, none(), "none").ledgerFile(), root);
    requireSound(undo(root, numbers(1), null).ledgerFile(), side);

    Path other = side("other", 1);
    Path borrower = side("borrower", 1);
    Path borrowed = restore(borrower, Way.NOISE.treatment, null, other).ledgerFile();
    Files.delete(other); // need not be at hand
    requireSame(again(borrowed, none(), "none-2").ledgerFile(), borrowed);
    requireSound(undo(borrowed, numbers(1), null).ledgerFile(), borrower);
  }

  @Test
  void everyKindOfConditionNarrowsTheChoice() throws Exception {
    Path root = restore(side("side", 2), Way.REPAIRS.treatment, null, null).ledgerFile();
    List<LedgerEdit> all = edits(root);
    LedgerEdit some = all.get(4);
    double from = some.start() / (double) RATE;
    List<TimeRange> there = List.of(new TimeRange(from, from + 0.3));
    double margin =
        all.stream()
            .mapToDouble(e -> e.statistic() - e.threshold())
            .sorted()
            .skip(5)
            .findFirst()
            .orElseThrow();
    requireUndone(
        root, choice(List.of(), List.of(), List.of(), there, null), e -> reaches(e, there));
    requireUndone(
        root,
        choice(List.of(), List.of(), List.of(1), there, null),
        e -> e.channel() == 1 && reaches(e, there));
    requireUndone(
        root, choice(List.of(), List.of(), List.of(0, 1), there, null), e -> reaches(e, there));
    requireUndone(
        root,
        choice(List.of(), List.of("clicks"), List.of(0), List.of(), margin),
        e ->
            e.stage().equals("clicks")
                && e.channel() == 0
                && e.statistic() - e.threshold() < margin);
    requireUndone(
        root,
        choice(List.of(new EditChoice.Numbers(2, 9)), List.of(), List.of(1), List.of(), null),
        e -> e.number() >= 2 && e.number() <= 9 && e.channel() == 1);
  }

  private static boolean reaches(LedgerEdit edit, List<TimeRange> ranges) {
    return edit.end() > Math.round(ranges.get(0).fromSeconds() * RATE)
        && edit.start() < Math.round(ranges.get(0).toSeconds() * RATE);
  }

  private int tries;

  private void requireUndone(Path root, EditChoice choice, Predicate<LedgerEdit> expected)
      throws Exception {
    List<LedgerEdit> kept = edits(root).stream().filter(expected.negate()).toList();
    assertThat(kept.size()).isBetween(1, edits(root).size() - 1);
    Path child = undo(root, choice, "try-" + tries++).ledgerFile();
    assertThat(edits(child))
        .extracting(LedgerEdit::start)
        .isEqualTo(kept.stream().map(LedgerEdit::start).toList());
    assertThat(Verify.run(child, BESIDE)).noneMatch(c -> c.outcome() == Check.Outcome.FAILS);
  }

  @Test
  void whatCannotBeIsRefusedAndNothingIsWritten() throws Exception {
    Path side = side("side", 1);
    Path root = restore(side, Way.NOISE.treatment, null, null).ledgerFile();
    List<String> before = files();
    assertThatThrownBy(() -> undo(root, none(), null))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("nothing was written");
    assertThatThrownBy(() -> undo(root, numbers(4_000), null))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("there is no edit 4000")
        .hasMessageContaining("its edits are 1 to");
    assertThatThrownBy(
            () -> undo(root, choice(List.of(), List.of("noise"), List.of(), List.of(), null), null))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("no single edits");
    assertThatThrownBy(
            () ->
                undo(root, choice(List.of(), List.of("crackle"), List.of(), List.of(), null), null))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("no stage crackle");
    assertThatThrownBy(
            () -> undo(root, choice(List.of(), List.of(), List.of(1), List.of(), null), null))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("one channel");
    assertThatThrownBy(() -> undo(root, numbers(1), "../elsewhere"))
        .isInstanceOf(RequestRefusedException.class);
    assertThat(files()).isEqualTo(before);
    UndoOutcome done = undo(root, numbers(1), null);
    assertThatThrownBy(() -> undo(root, numbers(2), null))
        .isInstanceOf(OutputExistsException.class);
    assertThat(done.counts().undone()).isEqualTo(1);
  }

  @Test
  void missingAlteredAndForeignFilesAreNamedAndNothingIsWritten() throws Exception {
    Path side = side("side", 1);
    RestoreOutcome first = restore(side, Way.NOISE.treatment, null, null);
    Path root = first.ledgerFile();
    byte[] removed = Files.readAllBytes(first.removedFile());
    Files.delete(first.removedFile());
    refused(root, VerificationException.class, "The removed file side.removed.flac is not beside");
    Files.write(first.removedFile(), removed);
    byte[] restored = Files.readAllBytes(first.restoredFile());
    Files.delete(first.restoredFile());
    refused(root, VerificationException.class, "The restored file side.restored.wav is not beside");
    byte[] altered = restored.clone();
    altered[altered.length - 1001] ^= 1;
    Files.write(first.restoredFile(), altered);
    refused(root, VerificationException.class, "cannot be rebuilt from these files");
    Files.write(first.restoredFile(), restored);

    byte[] ledger = Files.readAllBytes(root);
    Files.write(root, Arrays.copyOf(ledger, ledger.length / 2));
    refused(root, LedgerDamagedException.class, "of the ledger");
    String later =
        new String(ledger, StandardCharsets.UTF_8).replaceFirst("\"version\":2", "\"version\":3");
    Files.writeString(root, later);
    refused(root, LedgerVersionException.class, "format version 3");
    Files.write(root, ledger);

    // decisions about another ledger, and altered ones
    Path child = undo(root, numbers(1), null).decisionsFile();
    Path other = restore(side("other", 1), Way.REPAIRS.treatment, null, null).ledgerFile();
    UndoRequest foreign =
        new UndoRequest(other, BESIDE, List.of(), child, null, null, null, false, "test", LATER);
    assertThatThrownBy(() -> Undo.run(foreign, Crew.alone(), Progress.SILENT))
        .isInstanceOf(SealedDocumentException.class)
        .hasMessageContaining("was made for another ledger, side.ledger.jsonl");
    byte[] decisions = Files.readAllBytes(child);
    decisions[decisions.length / 2] ^= 1;
    Files.write(child, decisions);
    UndoRequest broken =
        new UndoRequest(root, BESIDE, List.of(), child, null, null, "b", false, "test", LATER);
    assertThatThrownBy(() -> Undo.run(broken, Crew.alone(), Progress.SILENT))
        .isInstanceOf(SealedDocumentException.class);
  }

  private void refused(Path root, Class<? extends Exception> type, String words)
      throws IOException {
    List<String> before = files();
    assertThatThrownBy(() -> undo(root, numbers(1), null))
        .isInstanceOf(type)
        .hasMessageContaining(words);
    assertThat(files()).isEqualTo(before);
  }

  @Test
  void anAlteredCopyIsNoticedAlsoWhereWordsArePutBack() throws Exception {
    RestoreOutcome first = restore(side("side", 1), Way.REPAIRS.treatment, null, null);
    Path root = first.ledgerFile();
    byte[] good = Files.readAllBytes(first.restoredFile());
    LedgerEdit kept = edits(root).get(3);
    int data = good.length - 2 * FRAMES;
    for (long frame : new long[] {10, kept.start()}) {
      byte[] altered = good.clone();
      altered[data + 2 * (int) frame] ^= 1;
      Files.write(first.restoredFile(), altered);
      refused(root, VerificationException.class, "or was altered");
    }
  }

  @Test
  void anotherTreatmentIsNoticedBeforeAnythingIsWritten() throws Exception {
    Path root = restore(side("side", 1), Way.NOISE.treatment, null, null).ledgerFile();
    List<String> before = files();
    for (Spoiled spoiled : Spoiled.values()) {
      assertThatThrownBy(
              () ->
                  new Undo(
                          request(root, numbers(2), null),
                          Crew.alone(),
                          Progress.SILENT,
                          (ledger, side, crew, progress) ->
                              spoiled.of(Replay.of(ledger, side, crew, progress)),
                          false)
                      .run())
          .as(spoiled.name())
          .isInstanceOf(VerificationException.class)
          .hasMessageContaining("does not repeat the treatment of side.ledger.jsonl")
          .hasMessageContaining(spoiled.words);
      assertThat(files()).isEqualTo(before);
    }
  }

  /** Programs that do something else than they did. */
  private enum Spoiled {
    ONE_REPAIR_LESS("edit 5 (clicks, channel 0"),
    ONE_REPAIR_MORE("no other than the ledger's edits"),
    OTHER_STATISTIC("edit 5 (clicks, channel 0");

    private final String words;

    Spoiled(String words) {
      this.words = words;
    }

    Repetition of(Repetition good) {
      List<Stage> stages = new ArrayList<>();
      for (Stage stage : good.chain().stages()) {
        boolean clicks = stage.parameters().stage() == StageId.CLICKS;
        stages.add(clicks ? new SpoiledStage((RepairStage) stage, this) : stage);
      }
      return new Repetition() {
        @Override
        public WordSource words() {
          return good.words();
        }

        @Override
        public SideChain chain() {
          return new SideChain(stages);
        }

        @Override
        public Map<StageId, SignalWatch> watches() {
          return good.watches();
        }

        @Override
        public Map<String, Object> findings(SideReader copy) throws IOException {
          return good.findings(copy);
        }
      };
    }
  }

  private record SpoiledStage(RepairStage good, Spoiled how) implements RepairStage {

    @Override
    public StageParameters parameters() {
      return good.parameters();
    }

    @Override
    public Segmentation segmentation(AudioFormat format) {
      return good.segmentation(format);
    }

    @Override
    public boolean neutral() {
      return false;
    }

    @Override
    public Worker open(AudioFormat format) {
      Worker worker = good.open(format);
      int[] seen = {0};
      return window -> {
        List<Repair> spoiled = new ArrayList<>();
        for (Repair repair : worker.repair(window)) {
          boolean this5 = ++seen[0] == 5;
          if (this5 && how == Spoiled.ONE_REPAIR_LESS) {
            continue;
          }
          Repair.Evidence e = repair.evidence();
          spoiled.add(
              this5 && how == Spoiled.OTHER_STATISTIC
                  ? new Repair(
                      repair.channel(),
                      repair.start(),
                      repair.removed(),
                      new Repair.Evidence(
                          Math.nextUp(e.statistic()),
                          e.threshold(),
                          e.method(),
                          e.modelOrder(),
                          e.gapStart(),
                          e.gapFrames(),
                          e.uncertaintyDbfs()))
                  : repair);
          if (this5 && how == Spoiled.ONE_REPAIR_MORE) {
            spoiled.add(
                new Repair(
                    0,
                    repair.end() + 50,
                    new double[] {0.1},
                    new Repair.Evidence(1, 0, "x", 0, repair.end() + 50, 1, 0)));
          }
        }
        return spoiled;
      };
    }
  }

  @Test
  void filesGivenByPlaceAndAnotherFolderWork() throws Exception {
    Path side = side("side", 1);
    RestoreOutcome first = restore(side, Way.REPAIRS.treatment, null, null);
    Path vault = Files.createDirectory(folder.resolve("vault"));
    Path moved = Files.move(first.restoredFile(), vault.resolve("renamed.wav"));
    Path out = folder.resolve("gentler");
    UndoRequest request =
        new UndoRequest(
            first.ledgerFile(),
            new LedgerFiles(null, moved, null),
            List.of(),
            null,
            numbers(1),
            out,
            "mine",
            false,
            "test",
            LATER);
    UndoOutcome outcome = Undo.run(request, Crew.alone(), Progress.SILENT);
    assertThat(outcome.ledgerFile()).isEqualTo(out.resolve("mine.ledger.jsonl"));
    // it tells by itself where its parent lay
    requireDescent(Verify.run(outcome.ledgerFile(), BESIDE));
    Path elsewhere = vault.resolve("first.ledger.jsonl");
    Files.move(first.ledgerFile(), elsewhere);
    List<Check> checks = Verify.run(outcome.ledgerFile(), BESIDE);
    assertThat(named(checks, "parent-ledger").outcome()).isEqualTo(Check.Outcome.NOT_CHECKED);
    requireDescent(Verify.run(outcome.ledgerFile(), BESIDE, List.of(elsewhere)));
    // another ledger where it lay is not taken for it
    Files.copy(outcome.ledgerFile(), first.ledgerFile());
    checks = Verify.run(outcome.ledgerFile(), BESIDE);
    assertThat(named(checks, "parent-ledger").outcome()).isEqualTo(Check.Outcome.FAILS);
    requireDescent(Verify.run(outcome.ledgerFile(), BESIDE, List.of(elsewhere)));
  }

  private static void requireDescent(List<Check> checks) {
    assertThat(checks)
        .filteredOn(c -> c.name().startsWith("parent-"))
        .hasSize(5)
        .allMatch(c -> c.outcome() == Check.Outcome.HOLDS);
  }

  private static Check named(List<Check> checks, String name) {
    for (Check check : checks) {
      if (check.name().equals(name)) {
        return check;
      }
    }
    return fail("no check " + name);
  }
}
