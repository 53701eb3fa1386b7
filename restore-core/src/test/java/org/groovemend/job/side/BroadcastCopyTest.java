package org.groovemend.job.side;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.CodingHistory;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.speed.SpeedCopy;
import org.groovemend.speed.TimeMap;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the extension of a broadcast file says of copies (EBU Tech 3285 v2). */
class BroadcastCopyTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(44_100, 2, 24);
  private static final int NOT_GIVEN = 0x7fff;

  @TempDir private Path dir;

  private static byte[] extension() {
    byte[] content =
        BroadcastExtension.withHistoryLine(
            null,
            CodingHistory.line(FORMAT, "converter; A/D"),
            new BroadcastExtension.Origin("Invented side", "N. O. Body", null));
    return BroadcastExtension.withLoudness(content, -20, 5, -2, -12, -15);
  }

  private Path side() throws IOException {
    Random random = new Random(4);
    long[][] words = new long[2][];
    for (int c = 0; c < 2; c++) {
      words[c] = random.ints(88_200, -50_000, 50_000).asLongStream().toArray();
    }
    Path file = dir.resolve("side.wav");
    List<WavChunk> chunks = List.of(WavChunk.of("bext", extension()), WavChunk.samples());
    try (WavWriter writer = WavWriter.create(file, FORMAT, 88_200, chunks, null)) {
      writer.write(words, 0, 88_200);
    }
    return file;
  }

  private static byte[] extensionOf(Path wav) throws IOException {
    try (SideReader copy = SideFiles.open(wav)) {
      for (WavChunk chunk : copy.wavChunks()) {
        if (chunk.id().equals("bext")) {
          return BroadcastCopy.read(wav, chunk);
        }
      }
    }
    throw new AssertionError("no bext in " + wav);
  }

  private Path restored(Path side, StageId... stages) throws IOException {
    Treatment treatment = Treatment.defaults().withStages(List.of(stages));
    Path out = dir.resolve("out" + stages.length);
    RestoreRequest request =
        new RestoreRequest(side, out, treatment, null, null, false, "test", Instant.EPOCH);
    return Restore.run(request, Crew.alone(), Progress.SILENT, ReportWish.NONE).restoredFile();
  }

  /** Loudness of the original would be a false statement about the copy; all else is carried. */
  @Test
  void loudnessOfTheOriginalIsNotThatOfTheCopy() throws IOException {
    byte[] before = extension();
    Path side = side();
    Path restored = restored(side, StageId.CLICKS);
    Path faster = dir.resolve("faster.wav");
    SpeedCopy.run(
        new SpeedCopy.Request(
            side, TimeMap.of(1.5), "stated", faster, 0, 1, false, "test", Instant.EPOCH),
        Crew.alone(),
        Progress.SILENT);
    for (Path copy : List.of(restored, faster)) {
      byte[] after = extensionOf(copy);
      assertThat(BroadcastExtension.parse(after).loudness()).containsOnly(NOT_GIVEN);
      byte[] kept = Arrays.copyOf(after, before.length);
      System.arraycopy(before, 412, kept, 412, 10);
      assertThat(kept).as(copy.toString()).isEqualTo(before);
      assertThat(BroadcastExtension.parse(after).codingHistoryLines()).hasSize(2);
    }
  }

  @Test
  void aCopyThatWasNotChangedKeepsItsLoudness() throws IOException {
    byte[] after = extensionOf(restored(side()));
    assertThat(after).startsWith(extension());
  }
}
