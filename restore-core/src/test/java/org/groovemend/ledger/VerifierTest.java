package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.LayoutSink;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.ledger.Check.Outcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is damaged is named, and nothing else. */
class VerifierTest {

  private static final LedgerFiles BESIDE = new LedgerFiles(null, null, null);
  private static final AudioFormat FORMAT = AudioFormat.pcm(48_000, 2, 24);
  private static final int FRAMES = 1500;

  @TempDir Path folder;
  private TreatedSide side;
  private Path ledger;

  @BeforeEach
  void repairedSide() throws IOException {
    write(false);
  }

  private void write(boolean whole) throws IOException {
    side = null;
    for (long seed = 1; side == null || side.edits.size() < 6; seed++) {
      side = new TreatedSide(new Random(seed), FORMAT, FRAMES, whole);
    }
    ledger = side.writeTo(folder);
  }

  private Verifier verifier() {
    return new Verifier(this::open, PlainRebuilder::new);
  }

  /** The original through its layout, the others as bare words. */
  private ArraySide open(Path path) throws IOException {
    byte[] bytes = Files.readAllBytes(path);
    if (path.getFileName().toString().equals("side.wav")) {
      long[][] words = new long[2][FRAMES];
      int at = 0;
      for (var piece : side.layout) {
        if (piece instanceof LayoutPiece.Bytes b) {
          at += b.content().length;
        } else if (piece instanceof LayoutPiece.PcmFrames p) {
          for (int i = 0; i < 2 * p.frames(); i++, at += 3) {
            words[i % 2][(int) p.firstFrame() + i / 2] =
                p.bigEndian()
                    ? Words.getBigEndian(bytes, at, 3)
                    : Words.getLittleEndian(bytes, at, 3);
          }
        }
      }
      return new ArraySide(path, FORMAT, words);
    }
    if (bytes.length % 6 != 0) {
      throw new InputRejectedException(
          path, "at the end", "the samples are cut short", "take a whole copy");
    }
    long[][] words = new long[2][bytes.length / 6];
    for (int i = 0; i < bytes.length / 3; i++) {
      words[i % 2][i / 2] = Words.getLittleEndian(bytes, 3 * i, 3);
    }
    return new ArraySide(path, FORMAT, words);
  }

  private List<Check> verify() throws IOException {
    return verifier().verify(ledger, BESIDE);
  }

  private static List<String> names(List<Check> checks, Outcome outcome) {
    return checks.stream().filter(c -> c.outcome() == outcome).map(Check::name).toList();
  }

  private static Check named(List<Check> checks, String name) {
    return checks.stream().filter(c -> c.name().equals(name)).findFirst().orElseThrow();
  }

  private void flip(String name, int at) throws IOException {
    byte[] bytes = Files.readAllBytes(folder.resolve(name));
    bytes[at] ^= 1;
    Files.write(folder.resolve(name), bytes);
  }

  @Test
  void anUntouchedSetHoldsInEveryCheck() throws IOException {
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS)).isEmpty();
    assertThat(names(checks, Outcome.NOT_CHECKED))
        .containsExactly(Verifier.REMOVED_FILE, Verifier.REMOVED_SAMPLES);
    assertThat(checks).hasSize(13);
    write(true);
    checks = verify();
    assertThat(names(checks, Outcome.FAILS)).isEmpty();
    assertThat(names(checks, Outcome.NOT_CHECKED)).containsExactly(Verifier.OUTSIDE_EDITS);
  }

  @Test
  void aChangedSampleOutsideTheEditsIsNamedByPlace() throws IOException {
    int frame = frameOutsideEdits();
    flip("side.restored.wav", 6 * frame);
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS))
        .containsExactly(
            Verifier.RESTORED_FILE,
            Verifier.RESTORED_SAMPLES,
            Verifier.OUTSIDE_EDITS,
            Verifier.CHANGED_SAMPLES);
    assertThat(named(checks, Verifier.OUTSIDE_EDITS).mismatches())
        .extracting(Mismatch::place)
        .containsExactly("channel 0, frame " + frame);
    assertThat(named(checks, Verifier.REVERSAL).outcome()).isEqualTo(Outcome.NOT_CHECKED);
  }

  private int frameOutsideEdits() {
    for (int frame = 0; ; frame++) {
      long f = frame;
      if (side.edits.stream().noneMatch(e -> e.channel() == 0 && e.start() <= f && f < e.end())) {
        return frame;
      }
    }
  }

  @Test
  void aChangedSampleInsideAnEditIsNamedByTheEdit() throws IOException {
    LedgerEdit edit = side.edits.get(2);
    flip("side.restored.wav", 6 * (int) edit.start() + 3 * edit.channel());
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS))
        .contains(Verifier.RESTORED_FILE, Verifier.RESTORED_SAMPLES, Verifier.EDIT_RESTORED)
        .doesNotContain(Verifier.OUTSIDE_EDITS, Verifier.EDIT_ORIGINAL);
    assertThat(named(checks, Verifier.EDIT_RESTORED).mismatches())
        .anyMatch(
            m -> m.place().startsWith("edit 3 (" + edit.stage() + ", channel " + edit.channel()));
  }

  @Test
  void anAlteredOriginalIsNamedAndCanStillBeRebuilt() throws IOException {
    LedgerEdit edit = side.edits.get(0);
    byte[] bytes = side.file.clone();
    // find the frame's place through the layout
    int at = 0;
    for (var piece : side.layout) {
      if (piece instanceof LayoutPiece.Bytes b) {
        at += b.content().length;
      } else if (piece instanceof LayoutPiece.PcmFrames p) {
        if (edit.start() >= p.firstFrame() && edit.start() < p.firstFrame() + p.frames()) {
          at += 6 * (int) (edit.start() - p.firstFrame()) + 3 * edit.channel();
          break;
        }
        at += 6 * (int) p.frames();
      }
    }
    bytes[at] ^= 64;
    Files.write(folder.resolve("side.wav"), bytes);
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS))
        .contains(Verifier.ORIGINAL_FILE, Verifier.ORIGINAL_SAMPLES, Verifier.EDIT_ORIGINAL)
        .doesNotContain(Verifier.RESTORED_FILE, Verifier.EDIT_RESTORED, Verifier.OUTSIDE_EDITS);
    assertThat(named(checks, Verifier.REVERSAL).outcome()).isEqualTo(Outcome.HOLDS);
  }

  @Test
  void aByteOutsideTheSamplesOfTheOriginalIsNamedByTheFileAlone() throws IOException {
    byte[] bytes = side.file.clone();
    bytes[bytes.length - 1] ^= 1;
    Files.write(folder.resolve("side.wav"), bytes);
    assertThat(names(verify(), Outcome.FAILS)).containsExactly(Verifier.ORIGINAL_FILE);
  }

  @Test
  void aDamagedRemovedFileIsNamed() throws IOException {
    write(true);
    flip("side.removed.flac", 600);
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS))
        .containsExactly(Verifier.REMOVED_FILE, Verifier.REMOVED_SAMPLES);
    assertThat(named(checks, Verifier.REVERSAL).outcome()).isEqualTo(Outcome.NOT_CHECKED);
  }

  @Test
  void filesOfAnotherShapeAreNotComparedSampleBySample() throws IOException {
    byte[] bytes = Files.readAllBytes(folder.resolve("side.restored.wav"));
    Files.write(folder.resolve("side.restored.wav"), Arrays.copyOf(bytes, bytes.length - 6));
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS))
        .containsExactly(Verifier.RESTORED_FILE, Verifier.RESTORED_SAMPLES);
    assertThat(named(checks, Verifier.RESTORED_SAMPLES).found()).contains("1499 frames");
    assertThat(named(checks, Verifier.OUTSIDE_EDITS).outcome()).isEqualTo(Outcome.NOT_CHECKED);
  }

  @Test
  void aFileThatCannotBeReadFailsWithItsSentence() throws IOException {
    byte[] bytes = Files.readAllBytes(folder.resolve("side.restored.wav"));
    Files.write(folder.resolve("side.restored.wav"), Arrays.copyOf(bytes, bytes.length - 1));
    List<Check> checks = verify();
    assertThat(named(checks, Verifier.RESTORED_SAMPLES).words()).contains("take a whole copy");
    assertThat(named(checks, Verifier.EDIT_RESTORED).outcome()).isEqualTo(Outcome.NOT_CHECKED);
  }

  @Test
  void missingFilesAreNotCheckedAndSaySo() throws IOException {
    Files.delete(folder.resolve("side.wav"));
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS)).isEmpty();
    assertThat(named(checks, Verifier.ORIGINAL_FILE).words()).contains("side.wav is not at hand");
    assertThat(named(checks, Verifier.REVERSAL).outcome()).isEqualTo(Outcome.HOLDS);
    Path elsewhere = Files.createDirectory(folder.resolve("elsewhere")).resolve("side.wav");
    Files.write(elsewhere, side.file);
    checks = verifier().verify(ledger, new LedgerFiles(elsewhere, null, null));
    assertThat(named(checks, Verifier.ORIGINAL_FILE).outcome()).isEqualTo(Outcome.HOLDS);
  }

  @Test
  void aDamagedLedgerFailsAtItsLineAndNothingElseIsTrusted() throws IOException {
    flip("side.ledger.jsonl", 400);
    List<Check> checks = verify();
    assertThat(names(checks, Outcome.FAILS)).containsExactly(Verifier.LEDGER);
    assertThat(checks.get(0).words()).startsWith("line 1 of the ledger: its digest is");
    assertThat(names(checks, Outcome.NOT_CHECKED)).hasSize(12);
  }

  @Test
  void everyTruncationOfASmallLedgerIsCaught() throws IOException {
    byte[] whole = GoldenLedger.bytes("v1/repairs/side.ledger.jsonl");
    for (int length = 0; length < whole.length; length++) {
      Files.write(ledger, Arrays.copyOf(whole, length));
      assertThat(verify().get(0).outcome()).as("cut to %d bytes", length).isEqualTo(Outcome.FAILS);
    }
  }

  @Test
  void wrongTotalsAndWrongDigestsInASealedLedgerAreFound() throws IOException {
    LedgerEdit first = side.edits.get(0);
    LedgerEdit wrong =
        new LedgerEdit(
            1,
            first.stage(),
            first.channel(),
            first.start(),
            first.end(),
            1,
            1,
            "lsar",
            0,
            first.start(),
            first.frames(),
            0,
            "0".repeat(64),
            "1".repeat(64),
            first.original());
    side.edits.set(0, wrong);
    LedgerTotals totals = side.totals();
    try (LedgerWriter writer = new LedgerWriter(Files.newOutputStream(ledger))) {
      writer.header(side.header());
      for (var piece : side.layout) {
        writer.container(piece);
      }
      for (LedgerEdit edit : side.edits) {
        writer.edit(edit);
      }
      writer.totals(
          new LedgerTotals(
              totals.edits(),
              totals.editsByStage(),
              totals.changedSamples() + 1,
              0,
              totals.restored(),
              null,
              List.of()));
      writer.seal();
    }
    assertThat(names(verify(), Outcome.FAILS))
        .containsExactly(
            Verifier.EDIT_WORDS,
            Verifier.EDIT_ORIGINAL,
            Verifier.EDIT_RESTORED,
            Verifier.CHANGED_SAMPLES);
  }

  @Test
  void manyDifferencesAreAllCountedButNotAllListed() throws IOException {
    byte[] bytes = Files.readAllBytes(folder.resolve("side.restored.wav"));
    for (int i = 0; i < bytes.length; i += 3) {
      bytes[i] ^= 1;
    }
    Files.write(folder.resolve("side.restored.wav"), bytes);
    Check outside = named(verify(), Verifier.OUTSIDE_EDITS);
    assertThat(outside.mismatches()).hasSize(Verifier.LIMIT);
    assertThat(outside.mismatchCount()).isGreaterThan(1000);
    Check edits = named(verify(), Verifier.EDIT_RESTORED);
    assertThat(edits.mismatchCount()).isEqualTo(side.edits.size());
  }

  @Test
  void aLayoutThatGivesAnotherFileFailsTheReversal() throws IOException {
    ByteSpoiler spoiler = new ByteSpoiler();
    List<Check> checks = new Verifier(this::open, spoiler::open).verify(ledger, BESIDE);
    assertThat(names(checks, Outcome.FAILS)).containsExactly(Verifier.REVERSAL);
  }

  /** A rebuilder that adds a byte. */
  private static final class ByteSpoiler {
    LayoutSink open(WordSource samples, OutputStream out) throws IOException {
      out.write(0);
      return new PlainRebuilder(samples, out);
    }
  }

  @Test
  void namesFollowTheOriginal() {
    LedgerNames names = LedgerNames.of(Path.of("sides", "reel 4.side A.wav"), 24);
    assertThat(names.restored()).isEqualTo("reel 4.side A.restored.wav");
    assertThat(names.ledger()).isEqualTo("reel 4.side A.ledger.jsonl");
    assertThat(names.removed()).isEqualTo("reel 4.side A.removed.flac");
    assertThat(names.report()).isEqualTo("reel 4.side A.report.html");
    assertThat(LedgerNames.of(Path.of("a.wav"), 64).removed()).isEqualTo("a.removed.wav");
    assertThat(LedgerNames.of(Path.of("plain"), 16).restored()).isEqualTo("plain.restored.wav");
    assertThat(LedgerNames.of(Path.of(".wav"), 16).restored()).isEqualTo(".wav.restored.wav");
  }
}
