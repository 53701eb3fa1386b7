package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.inspect.Inspect;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.Sha256;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a header or chunk says of the samples is held against the samples. */
class HonestHeaderTest {

  private static final AudioFormat FORMAT = new AudioFormat(44_100, 1, SampleCoding.PCM, 24, 16);
  private static final int FRAMES = 60_000;

  @TempDir Path folder;

  /** A worn side in 24-bit words that the header says hold 16 bits, with or without sound below. */
  private Path side(boolean empty, List<WavChunk> chunks) throws IOException {
    long[][] words = WornWords.of(new Random(9), AudioFormat.pcm(44_100, 1, 24), FRAMES);
    for (int i = 0; empty && i < FRAMES; i++) {
      words[0][i] &= ~0xffL;
    }
    Path file = folder.resolve("side.wav");
    try (WavWriter writer = WavWriter.create(file, FORMAT, FRAMES, chunks, null)) {
      writer.write(words, 0, FRAMES);
    }
    return file;
  }

  private RestoreOutcome restore(Path side, Treatment treatment) throws IOException {
    return Restore.run(
        new RestoreRequest(
            side,
            folder.resolve("out"),
            treatment,
            new TimeRange(0, 0.6),
            false,
            "test",
            Instant.parse("2026-03-01T12:00:00Z")),
        Crew.alone(),
        Progress.SILENT,
        ReportWish.NONE);
  }

  private static long usedBits(Path file) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      assertThat(side.format()).isEqualTo(FORMAT);
      long[][] words = new long[1][FRAMES];
      side.readWords(0, FRAMES, words, 0);
      long set = 0;
      for (long word : words[0]) {
        set |= word;
      }
      return 24 - Long.numberOfTrailingZeros(set);
    }
  }

  @Test
  void bitsThatTheHeaderCallsEmptyButAreNotAreSoundAndThePersonIsTold() throws Exception {
    Path side = side(false, List.of(WavChunk.samples()));
    RestoreOutcome outcome = restore(side, Treatment.defaults());
    assertThat(outcome.remarks())
        .anyMatch(r -> r.contains("16 of 24 bits") && r.contains("use 24"));
    assertThat(outcome.changedSamples()).isGreaterThan(FRAMES / 2);
    assertThat(usedBits(outcome.restoredFile())).isEqualTo(24);
    assertThat(Inspect.run(side, CaptureCurve.UNKNOWN, Crew.alone(), Progress.SILENT).notices())
        .anyMatch(r -> r.contains("16 of 24 bits"));
    Path back = folder.resolve("back.wav");
    Revert.run(outcome.ledgerFile(), new LedgerFiles(null, null, null), back, false);
    assertThat(Sha256.of(back)).isEqualTo(Sha256.of(side));
  }

  @Test
  void bitsThatAreEmptyStayEmpty() throws Exception {
    RestoreOutcome outcome = restore(side(true, List.of(WavChunk.samples())), Treatment.defaults());
    assertThat(outcome.remarks()).noneMatch(r -> r.contains("bits"));
    assertThat(usedBits(outcome.restoredFile())).isEqualTo(16);
  }

  @Test
  void aChunkThatSpeaksOfTheSamplesIsNamedOnceTheyHaveChanged() throws Exception {
    byte[] peak =
        ByteBuffer.allocate(16)
            .order(ByteOrder.LITTLE_ENDIAN)
            .putInt(1)
            .putInt(0)
            .putFloat(1)
            .putInt(7)
            .array();
    List<WavChunk> chunks = List.of(WavChunk.of("PEAK", peak), WavChunk.samples());
    Path side = side(true, chunks);
    RestoreOutcome outcome = restore(side, Treatment.defaults());
    assertThat(outcome.remarks())
        .anyMatch(r -> r.contains("PEAK") && r.contains("describes the original"));
    try (SideReader copy = SideFiles.open(outcome.restoredFile())) {
      WavChunk carried =
          copy.wavChunks().stream().filter(c -> c.id().equals("PEAK")).findFirst().orElseThrow();
      byte[] bytes = Files.readAllBytes(outcome.restoredFile());
      assertThat(
              java.util.Arrays.copyOfRange(
                  bytes, (int) carried.fileOffset(), (int) (carried.fileOffset() + carried.size())))
          .isEqualTo(peak);
    }
    Files.delete(outcome.ledgerFile());
    Files.delete(outcome.restoredFile());
    Files.delete(outcome.removedFile());
    RestoreOutcome untouched = restore(side, Treatment.defaults().withStages(List.of()));
    assertThat(untouched.remarks()).noneMatch(r -> r.contains("PEAK"));
  }
}
