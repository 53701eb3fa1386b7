package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class DiscCommandTest {

  @TempDir private static Path dir;
  private static Path ledger;

  @BeforeAll
  static void restore() throws IOException {
    Path side = dir.resolve("side.wav");
    SmallSide.write(side, 3);
    CommandRun run = CommandRun.of("restore", side, "--stages", "clicks", "--captured", "flat");
    assertEquals(0, run.code(), run.err());
    ledger = dir.resolve("side.ledger.jsonl");
  }

  @Test
  void withoutASpeedOneSentenceSaysWhatToDoAndNothingIsWritten() {
    CommandRun run = CommandRun.of("disc", ledger);
    assertEquals(ExitCode.USAGE, run.code());
    assertEquals("", run.out());
    assertEquals(1, run.err().lines().count(), run.err());
    assertTrue(run.err().contains("nothing was drawn"), run.err());
    assertTrue(run.err().contains("--rpm"), run.err());
    assertFalse(Files.exists(dir.resolve("side.disc.png")));
  }

  @Test
  void withAStatedSpeedThePictureLiesBesideAndIsNotWrittenOver() throws IOException {
    Path picture = dir.resolve("side.disc.png");
    CommandRun run = CommandRun.of("disc", ledger, "--rpm", "78.26");
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("side.disc.png"), run.out());
    assertTrue(run.out().contains("Drawn at 78.260 rpm, as stated."), run.out());
    assertTrue(run.out().contains("Scratches: 0."), run.out());
    byte[] png = Files.readAllBytes(picture);

    CommandRun again = CommandRun.of("disc", ledger, "--rpm", "45");
    assertEquals(ExitCode.OUTPUT_EXISTS, again.code());
    assertTrue(again.err().contains("Give another --png, or --replace"), again.err());
    assertTrue(Arrays.equals(png, Files.readAllBytes(picture)));

    assertEquals(0, CommandRun.of("disc", ledger, "--rpm", "45", "--replace").code());
    assertFalse(Arrays.equals(png, Files.readAllBytes(picture)));
    Files.delete(picture);
  }

  @Test
  void machinesGetOneObject() throws IOException {
    Path picture = dir.resolve("json.png");
    CommandRun run = CommandRun.of("disc", ledger, "--rpm", "33.333", "--png", picture, "--json");
    JsonNode result = new ObjectMapper().readTree(run.out());
    assertEquals(1, result.get("disc").asInt());
    assertEquals(picture.toString(), result.get("picture").asText());
    assertEquals(33.333, result.get("drawnAtRpm").asDouble());
    assertTrue(result.get("rpmStated").asBoolean());
    assertFalse(result.get("turntable").get("found").asBoolean());
    assertTrue(result.get("turntable").get("rpm").isNull());
    assertEquals(0, result.get("scratches").size());
    assertEquals(146.05, result.get("assumed").get("outerRadiusMm").asDouble());

    JsonNode refused = new ObjectMapper().readTree(CommandRun.of("disc", ledger, "--json").out());
    assertEquals("usage", refused.get("error").get("kind").asText());
  }

  @Test
  void speedsThatCannotBeAndPlacesThatCannotBeAreUsageFailures() {
    for (String rpm : new String[] {"0", "500", "-3", "NaN", "fast"}) {
      CommandRun run = CommandRun.of("disc", ledger, "--rpm=" + rpm);
      assertEquals(ExitCode.USAGE, run.code(), rpm);
      assertTrue(run.err().contains(rpm), run.err());
    }
    CommandRun folder = CommandRun.of("disc", ledger, "--rpm", "45", "--png", dir);
    assertEquals(ExitCode.USAGE, folder.code());
    assertTrue(folder.err().contains("--png " + dir + " is a folder"), folder.err());
    assertEquals(
        ExitCode.USAGE,
        CommandRun.of("disc", ledger, "--rpm=45", "--png", ledger, "--replace").code());
  }

  @Test
  void aLedgerThatIsMissingOrNoneIsSaidSo() {
    assertEquals(
        ExitCode.INPUT_REFUSED, CommandRun.of("disc", dir.resolve("nowhere.jsonl")).code());
    assertEquals(ExitCode.INPUT_REFUSED, CommandRun.of("disc", dir).code());
    assertEquals(
        ExitCode.VERIFICATION_FAILED,
        CommandRun.of("disc", dir.resolve("side.wav"), "--rpm", "45").code());
  }
}
