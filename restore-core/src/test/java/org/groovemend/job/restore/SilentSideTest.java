package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.chain.Progress;
import org.groovemend.job.proof.Verify;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SilentSideTest {

  @TempDir Path folder;

  private String page(int loud, Path file) throws Exception {
    AudioFormat format = AudioFormat.pcm(44_100, 1, 16);
    int frames = 20_000;
    long[][] words = new long[1][frames];
    words[0][9_000] = loud;
    try (WavWriter writer =
        WavWriter.create(file, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, frames);
    }
    RestoreOutcome outcome =
        Restore.run(
            new RestoreRequest(
                file,
                folder,
                Treatment.defaults(),
                null,
                false,
                "test",
                Instant.parse("2026-03-01T12:00:00Z")),
            Crew.alone(),
            Progress.SILENT);
    assertThat(outcome.remarks().contains(Restore.SILENT)).isEqualTo(loud == 0);
    assertThat(outcome.stagesApplied().isEmpty()).isEqualTo(loud == 0);
    assertThat(outcome.changedSamples() == 0 || loud != 0).isTrue();
    assertThat(Verify.failed(Verify.run(outcome.ledgerFile(), new LedgerFiles(null, null, null))))
        .isFalse();
    return Files.readString(outcome.reportFile());
  }

  @Test
  void thePageOfDigitalSilenceSaysSoAndClaimsNoTreatment() throws Exception {
    String page = page(0, folder.resolve("silent.wav"));
    assertThat(page).contains(Restore.SILENT).contains("not applied").doesNotContain(">applied<");
    assertThat(page)
        .doesNotContain("<img")
        .doesNotContain("--lead-in")
        .doesNotContain("--captured");
  }

  @Test
  void oneSampleIsEnoughForASideThatIsTreated() throws Exception {
    String page = page(1, folder.resolve("faint.wav"));
    assertThat(page).doesNotContain(Restore.SILENT).contains(">applied<").contains("<img");
  }
}
