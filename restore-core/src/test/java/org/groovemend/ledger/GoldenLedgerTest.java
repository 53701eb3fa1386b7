package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.Words;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Ledgers of released versions are read, verified and reverted for ever. */
class GoldenLedgerTest {

  private static final int WAV_HEAD = 44;

  @TempDir Path folder;

  private Path copy(String side, boolean whole) throws IOException {
    List<String> names =
        new ArrayList<>(List.of("side.wav", "side.restored.wav", "side.ledger.jsonl"));
    if (whole) {
      names.add("side.removed.wav");
    }
    for (String name : names) {
      Files.write(folder.resolve(name), GoldenLedger.bytes(side + "/" + name));
    }
    return folder.resolve("side.ledger.jsonl");
  }

  /** Opens these tiny WAV files by their known place of samples. */
  private static ArraySide open(Path wav) throws IOException {
    byte[] bytes = Files.readAllBytes(wav);
    int channels = bytes[22];
    int bits = bytes[34];
    AudioFormat format = AudioFormat.pcm(8_000, channels, bits);
    int frames = (int) Words.getLittleEndian(bytes, 40, 4) / format.bytesPerFrame();
    long[][] words = new long[channels][frames];
    for (int i = 0, at = WAV_HEAD; i < frames; i++) {
      for (int c = 0; c < channels; c++, at += bits / 8) {
        words[c][i] = Words.getLittleEndian(bytes, at, bits / 8);
      }
    }
    return new ArraySide(wav, format, words);
  }

  @ParameterizedTest
  @CsvSource({"v1/repairs,false", "v1/whole,true", "v2/repairs,false", "v2/whole,true"})
  void everyCheckHolds(String side, boolean whole) throws IOException {
    Path ledger = copy(side, whole);
    List<Check> checks =
        new Verifier(GoldenLedgerTest::open, PlainRebuilder::new)
            .verify(ledger, new LedgerFiles(null, null, null));
    List<String> notMade =
        checks.stream()
            .filter(c -> c.outcome() == Check.Outcome.NOT_CHECKED)
            .map(Check::name)
            .toList();
    assertThat(checks).noneMatch(c -> c.outcome() == Check.Outcome.FAILS);
    assertThat(notMade)
        .isEqualTo(
            whole
                ? List.of(Verifier.OUTSIDE_EDITS)
                : List.of(Verifier.REMOVED_FILE, Verifier.REMOVED_SAMPLES));
  }

  @ParameterizedTest
  @CsvSource({"v1/repairs,false", "v1/whole,true", "v2/repairs,false", "v2/whole,true"})
  void theOriginalComesBack(String side, boolean whole) throws Exception {
    Path ledger = copy(side, whole);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    new Reversal(PlainRebuilder::new)
        .revert(
            ledger,
            open(folder.resolve("side.restored.wav")),
            whole ? open(folder.resolve("side.removed.wav")) : null,
            out);
    assertThat(out.toByteArray()).isEqualTo(GoldenLedger.bytes(side + "/side.wav"));
  }

  @ParameterizedTest
  @CsvSource({"v2/repairs,1,16,false", "v2/whole,2,24,true"})
  void todaysWriterStillWritesTheSameBytes(String side, int channels, int bits, boolean whole)
      throws IOException {
    GoldenLedger.write(folder, AudioFormat.pcm(8_000, channels, bits), whole);
    assertThat(Files.readAllBytes(folder.resolve("side.ledger.jsonl")))
        .isEqualTo(GoldenLedger.bytes(side + "/side.ledger.jsonl"));
  }

  @Test
  void todaysWriterStillWritesTheSameChild() throws IOException {
    GoldenLedger.write(folder, AudioFormat.pcm(8_000, 1, 16), false);
    GoldenLedger.writeChild(folder);
    for (String name : List.of("ledger.jsonl", "restored.wav", "decisions.json")) {
      assertThat(Files.readAllBytes(folder.resolve("side.undo-1." + name)))
          .isEqualTo(GoldenLedger.bytes("v2/repairs/side.undo-1." + name));
    }
  }

  @Test
  void aChildIsVerifiedAndRevertedLikeItsParent() throws Exception {
    copy("v2/repairs", false);
    for (String name : List.of("ledger.jsonl", "restored.wav")) {
      Files.write(
          folder.resolve("side.undo-1." + name),
          GoldenLedger.bytes("v2/repairs/side.undo-1." + name));
    }
    Path ledger = folder.resolve("side.undo-1.ledger.jsonl");
    List<Check> checks =
        new Verifier(GoldenLedgerTest::open, PlainRebuilder::new)
            .verify(ledger, new LedgerFiles(null, null, null));
    assertThat(checks).noneMatch(c -> c.outcome() == Check.Outcome.FAILS);
    LedgerParent parent = Ledger.open(ledger).header().parent();
    assertThat(parent.ledger()).isEqualTo("side.ledger.jsonl");
    assertThat(parent.seal()).isEqualTo(Ledger.open(folder.resolve("side.ledger.jsonl")).seal());
    assertThat(parent.undone()).isEqualTo(1);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    new Reversal(PlainRebuilder::new)
        .revert(ledger, open(folder.resolve("side.undo-1.restored.wav")), null, out);
    assertThat(out.toByteArray()).isEqualTo(GoldenLedger.bytes("v2/repairs/side.wav"));
  }

  @Test
  void theFactsAreThoseThatWereWritten() throws IOException {
    Ledger ledger = Ledger.open(copy("v1/repairs", false));
    assertThat(ledger.records()).isEqualTo(10);
    assertThat(ledger.header().original().frames()).isEqualTo(24);
    assertThat(ledger.header().dither()).isEqualTo(new Dither("tpdf", 20_260_301));
    assertThat(ledger.totals().changedSamples()).isEqualTo(4);
    assertThat(ledger.analyses()).extracting(AnalysisRecord::name).containsExactly("side");
    List<LedgerEdit> edits = new ArrayList<>();
    ledger.forEachEdit(edits::add);
    assertThat(edits).extracting(LedgerEdit::start).containsExactly(5L, 15L, 23L);
    assertThat(edits.get(0).original()).containsExactly(0x20, 0x4e, 0x00, 0x80); // 20000, -32768
    assertThat(edits.get(2).uncertaintyDbfs()).isNaN();
  }
}
