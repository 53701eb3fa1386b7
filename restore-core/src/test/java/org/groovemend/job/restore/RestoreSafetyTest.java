package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.OutputIsInputException;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** No name, link or option may lead to the loss of a file that was only to be read. */
class RestoreSafetyTest {

  @TempDir Path folder;

  private Path side(String name) throws IOException {
    AudioFormat format = AudioFormat.pcm(44_100, 1, 16);
    int frames = 3_000;
    Path file = folder.resolve(name);
    try (WavWriter writer =
        WavWriter.create(file, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(WornWords.of(new Random(5), format, frames), 0, frames);
    }
    return file;
  }

  private static RestoreOutcome restore(Path side, Path out, List<StageId> stages)
      throws IOException {
    return Restore.run(
        new RestoreRequest(
            side,
            out,
            Treatment.defaults().withStages(stages),
            new TimeRange(0, 0.05),
            true,
            "test",
            Instant.parse("2026-03-01T12:00:00Z")),
        Crew.alone(),
        Progress.SILENT,
        ReportWish.NONE);
  }

  @Test
  void aTransferUnderAnOutputsNameIsRefusedEvenThroughALink() throws IOException {
    Path real = side("side.removed.flac");
    byte[] bytes = Files.readAllBytes(real);
    Path link = Files.createSymbolicLink(folder.resolve("side.wav"), real.getFileName());
    assertThatThrownBy(() -> restore(link, folder, List.of(StageId.CLICKS)))
        .isInstanceOf(OutputIsInputException.class);
    assertThat(Files.readAllBytes(real)).isEqualTo(bytes);
  }

  @Test
  void aRemovedFileThatDoesNotBelongIsNamedNotDeleted() throws IOException {
    Path side = side("side.wav");
    Path other = Files.writeString(folder.resolve("side.removed.flac"), "somebody's");
    RestoreOutcome outcome = restore(side, folder, List.of(StageId.CLICKS));
    assertThat(Files.readString(other)).isEqualTo("somebody's");
    assertThat(outcome.remarks()).anyMatch(remark -> remark.contains("side.removed.flac"));
  }

  @Test
  void revertWritesOverNoneOfTheFilesItReads() throws Exception {
    Path side = side("side.wav");
    Path out = folder.resolve("out");
    AudioFormat format = AudioFormat.pcm(44_100, 1, 16);
    int frames = 60_000;
    Files.delete(side);
    try (WavWriter writer =
        WavWriter.create(side, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(WornWords.of(new Random(9), format, frames), 0, frames);
    }
    RestoreOutcome outcome =
        Restore.run(
            new RestoreRequest(
                side,
                out,
                Treatment.defaults(),
                new TimeRange(0, 0.6),
                false,
                "test",
                Instant.parse("2026-03-01T12:00:00Z")),
            Crew.alone(),
            Progress.SILENT,
            ReportWish.NONE);
    assertThat(outcome.removedFile()).exists();
    for (Path read : List.of(outcome.removedFile(), outcome.restoredFile(), outcome.ledgerFile())) {
      byte[] bytes = Files.readAllBytes(read);
      assertThatThrownBy(
              () -> Revert.run(outcome.ledgerFile(), new LedgerFiles(null, null, null), read, true))
          .isInstanceOf(OutputIsInputException.class);
      assertThat(Files.readAllBytes(read)).isEqualTo(bytes);
    }
  }

  @Test
  void aStatedLeadInThatDoesNotFitTheSideIsRefusedAndLeavesNothing() throws IOException {
    Path side = side("side.wav");
    Path out = folder.resolve("out");
    for (TimeRange bad : List.of(new TimeRange(0, 3), new TimeRange(0.01, 0.010001))) {
      RestoreRequest request =
          new RestoreRequest(
              side,
              out,
              Treatment.defaults(),
              bad,
              false,
              "test",
              Instant.parse("2026-03-01T12:00:00Z"));
      assertThatThrownBy(() -> Restore.run(request, Crew.alone(), Progress.SILENT, ReportWish.NONE))
          .isInstanceOf(RequestRefusedException.class)
          .hasMessageContaining("lead-in");
    }
    assertThat(out).doesNotExist();
  }

  @Test
  void thePicturesCanBeStoppedAndNothingIsLeftThen() throws IOException {
    Path side = side("side.wav");
    Path out = folder.resolve("out");
    RestoreRequest request =
        new RestoreRequest(
            side,
            out,
            Treatment.defaults().withStages(List.of(StageId.CLICKS)),
            null,
            false,
            "test",
            Instant.parse("2026-03-01T12:00:00Z"));
    Progress stopping =
        (step, done, total) -> {
          if (step.equals("drawing") && done > 0) {
            throw new CancellationException("interrupted");
          }
        };
    assertThatThrownBy(() -> Restore.run(request, Crew.alone(), stopping))
        .isInstanceOf(CancellationException.class);
    assertThat(out).doesNotExist();
    assertThat(Restore.run(request, Crew.alone(), Progress.SILENT).reportFile()).exists();
  }

  @Test
  void aRootIsNoNameForWhatRevertWrites() {
    LedgerFiles beside = new LedgerFiles(null, null, null);
    Path root = folder.getRoot();
    assertThatThrownBy(() -> Revert.run(folder.resolve("side.ledger.jsonl"), beside, root, false))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("is not the name of a file");
    assertThatThrownBy(() -> LedgerNames.of(root, 16)).isInstanceOf(IllegalArgumentException.class);
  }
}
