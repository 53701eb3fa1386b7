package org.groovemend.job.disc;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputIsInputException;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.rotation.Scratch;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DiscTest {

  @TempDir private static Path folder;
  private static Path scratched;
  private static Path strewn;

  @BeforeAll
  static void restoreBoth() throws IOException {
    scratched = restored("scratched", true);
    strewn = restored("strewn", false);
  }

  private static Path restored(String name, boolean scratch) throws IOException {
    Path side = folder.resolve(name + ".wav");
    ScratchedSide.write(side, scratch);
    return Restore.run(
            new RestoreRequest(
                side,
                folder,
                Treatment.defaults()
                    .withStages(List.of(StageId.CLICKS))
                    .withCaptured(CaptureCurve.FLAT),
                null,
                false,
                "test",
                Instant.parse("2026-03-01T12:00:00Z")),
            Crew.alone(),
            Progress.SILENT)
        .ledgerFile();
  }

  private static DiscOutcome drawn(Path ledger, String picture, double rpm) throws IOException {
    return Disc.run(new DiscRequest(ledger, folder.resolve(picture), rpm, false));
  }

  private static Map<String, Object> rotation(Path ledger) throws IOException {
    return Ledger.open(ledger).analyses().stream()
        .filter(a -> a.name().equals("rotation"))
        .map(AnalysisRecord::result)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void scratchIsFoundAndDrawnFromTheLedgerAlone() throws IOException {
    DiscOutcome outcome = Disc.run(new DiscRequest(scratched, null, Double.NaN, false));
    assertThat(outcome.rotation().found()).isTrue();
    assertThat(outcome.rpm()).isCloseTo(100.0 / 3, within(0.02));
    assertThat(outcome.stated()).isFalse();
    assertThat(outcome.outerMm()).isEqualTo(146.05);
    Scratch scratch = outcome.rotation().scratches().get(0);
    assertThat(scratch.firstFrame() / (double) ScratchedSide.RATE)
        .isCloseTo(ScratchedSide.BEGIN, within(2 * ScratchedSide.TURN + 0.001));
    assertThat(scratch.frames()).hasSizeGreaterThan(ScratchedSide.TURNS - 4);
    // 4.05 s are two turns and a quarter
    assertThat(scratch.angleDegrees()).isCloseTo(90, within(1.0));
    assertThat(outcome.picture()).isEqualTo(folder.resolve("scratched.disc.png"));
    assertThat(Files.readAllBytes(outcome.picture())).startsWith(0x89, 'P', 'N', 'G');
  }

  @Test
  void samePictureEachTime() throws IOException {
    Path first = drawn(scratched, "a.png", 33.3).picture();
    Path second = drawn(scratched, "b.png", 33.3).picture();
    assertThat(Files.readAllBytes(first)).isEqualTo(Files.readAllBytes(second));
    assertThat(Files.readAllBytes(drawn(scratched, "c.png", 45).picture()))
        .isNotEqualTo(Files.readAllBytes(first));
  }

  @Test
  void withoutAnythingThatRecursNoSpeedIsClaimedAndNothingDrawn() throws IOException {
    assertThatThrownBy(() -> drawn(strewn, "none.png", Double.NaN))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("repaired places")
        .hasMessageContaining("--rpm");
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files.map(f -> f.getFileName().toString()))
          .noneMatch(f -> f.equals("none.png") || f.startsWith(".groovemend"));
    }
    DiscOutcome stated = drawn(strewn, "stated.png", 78.26);
    assertThat(stated.stated()).isTrue();
    assertThat(stated.rotation().scratches()).isEmpty();
    assertThat(stated.outerMm()).isEqualTo(120.65);
    assertThat(stated.picture()).exists();
  }

  @Test
  void impossibleSpeedsAreRefused() {
    for (double rpm : new double[] {0, -33, 14.9, 500, Double.POSITIVE_INFINITY}) {
      assertThatThrownBy(() -> drawn(scratched, "no.png", rpm))
          .isInstanceOf(RequestRefusedException.class)
          .hasMessageContaining("15 to 100");
    }
    assertThat(folder.resolve("no.png")).doesNotExist();
  }

  @Test
  void neitherAPictureThatIsThereNorTheLedgerIsWrittenOver() throws IOException {
    Path there = Files.writeString(folder.resolve("there.png"), "somebody's");
    assertThatThrownBy(() -> drawn(scratched, "there.png", 45))
        .isInstanceOf(OutputExistsException.class);
    assertThat(there).hasContent("somebody's");
    Disc.run(new DiscRequest(scratched, there, 45, true));
    assertThat(Files.size(there)).isGreaterThan(1000);
    assertThatThrownBy(() -> Disc.run(new DiscRequest(scratched, scratched, 45, true)))
        .isInstanceOf(OutputIsInputException.class);
  }

  @Test
  void ledgerAndPageHoldTheFinding() throws IOException {
    Map<String, Object> found = rotation(scratched);
    assertThat(found.get("found")).isEqualTo(true);
    assertThat((Double) found.get("rpm")).isCloseTo(100.0 / 3, within(0.02));
    assertThat((Double) found.get("chance")).isLessThan(1e-6);
    String page = Files.readString(folder.resolve("scratched.report.html"));
    assertThat(page).contains("Turntable 33.3 rpm (nominal 33 1/3) from the repaired places");
    assertThat(page)
        .contains("The side as the disc lies", "groovemend disc scratched.ledger.jsonl");

    Map<String, Object> none = rotation(strewn);
    assertThat(none.get("found")).isEqualTo(false);
    assertThat(none.get("rpm")).isNull();
    String other = Files.readString(folder.resolve("strewn.report.html"));
    assertThat(other).contains("none told").doesNotContain("groovemend disc", "as the disc lies");
  }

  @Test
  void aLedgerWithTheFindingStillProvesTheWayBack() throws IOException {
    assertThat(Verify.failed(Verify.run(scratched, new LedgerFiles(null, null, null)))).isFalse();
  }
}
