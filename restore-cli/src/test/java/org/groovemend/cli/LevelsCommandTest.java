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
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Of the commands levels and loading. */
@Tag("long")
class LevelsCommandTest {

  @TempDir private Path dir;

  private static JsonNode json(Object... args) throws IOException {
    CommandRun run = CommandRun.of(args);
    assertEquals(0, run.code(), run.err());
    return new ObjectMapper().readTree(run.out());
  }

  @Test
  void aLevelInEveryUnit() throws IOException {
    CommandRun run = CommandRun.of("levels", "5mV");
    assertTrue(run.out().contains("-43.802"), run.out());
    assertTrue(run.out().contains("7.958 um"), run.out());
    JsonNode below = json("levels", "--json", "--full-scale", "24", "--", "-20dBFS");
    assertEquals(4, below.get("dBu").asDouble(), 1e-9);
  }

  @Test
  void thePlanNamesTheLimit() throws IOException {
    JsonNode plan =
        json(
            "levels",
            "--json",
            "--full-scale",
            "0",
            "--gain",
            "0",
            "--converter",
            "120",
            "--curve",
            "flat");
    assertEquals("groove", plan.get("limiting").asText());
    assertEquals(76.2, plan.get("noise").get(2).get("belowDb").asDouble(), 0.01);
    assertTrue(CommandRun.of("levels").out().contains("limits"));
    assertTrue(CommandRun.of("levels", "--gain", "60").out().contains("Too much"));
  }

  /** Clicks of 0.6 on tones of 0.3: repaired, they leave the tones. */
  @Test
  void musicAndClicksOfATransferApart() throws Exception {
    Path side = dir.resolve("side.wav");
    SmallSide.write(side, 4);
    byte[] before = Files.readAllBytes(side);
    JsonNode room = json("levels", side, "--captured", "flat", "--curve", "flat", "--json");
    JsonNode found = room.get("room");
    assertEquals(20 * Math.log10(0.31), found.get("musicBeforeDbfs").asDouble(), 0.7);
    assertTrue(
        found.get("allBeforeDbfs").asDouble() > found.get("musicBeforeDbfs").asDouble() + 3,
        room.toString());
    assertEquals(
        found.get("allBeforeDbfs").asDouble(), found.get("allBehindDbfs").asDouble(), 1e-9);
    assertTrue(found.get("repairs").asInt() > 10);
    JsonNode curved = json("levels", side, "--captured", "flat", "--json").get("room");
    // the two tones from their abrupt beginning on through the analogue network, by scipy at eight
    // times the rate: -6.27, of which 2 dB are the swing of the beginning; the rest is noise
    assertEquals(-6.27, curved.get("musicBehindDbfs").asDouble(), 0.3);
    assertTrue(Arrays.equals(before, Files.readAllBytes(side)));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "levels --pickup 0|mV",
        "levels 5mV --full-scale NaN|--full-scale",
        "levels --curve riia|did you mean",
        "levels --loudest NaN|loudest",
        "levels --converter NaN|--converter",
        "loading --capacitance 900 --ideal-capacitance 150|13.4 dB at 20000 Hz",
        "loading --inductance -1|inductance",
        "loading --ideal-load 1|load resistance",
        "loading --ideal-load 47000 --most-gain NaN|most gain"
      })
  void nonsenseIsRefusedInOneSentence(String line, String words) {
    CommandRun run = CommandRun.of((Object[]) line.split(" "));
    assertEquals(ExitCode.USAGE, run.code(), run.out());
    assertEquals("", run.out());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertTrue(run.err().contains(words), run.err());
  }

  @Test
  void whatIsNeitherLevelNorFileIsRefused() {
    CommandRun run = CommandRun.of("levels", dir.resolve("none.wav"));
    assertEquals(ExitCode.INPUT_REFUSED, run.code());
    assertEquals(1, run.err().strip().lines().count(), run.err());
  }

  @Test
  void aLoadIsTabulatedAndDrawn() throws IOException {
    Path png = dir.resolve("l.png");
    CommandRun run =
        CommandRun.of(
            "loading", "--capacitance", "300", "--ideal-capacitance", "150", "--png", png);
    assertEquals(0, run.code(), run.err());
    // worked example: 500 mH, 800 ohm, 47 kohm, 300 pF
    assertTrue(run.out().contains("peak +2.04 dB at 10253 Hz"), run.out());
    assertTrue(run.out().contains("    10000       2.00"), run.out());
    assertEquals(1200, ImageIO.read(png.toFile()).getWidth());
    assertEquals(ExitCode.OUTPUT_EXISTS, CommandRun.of("loading", "--png", png).code());
    JsonNode alone = json("loading", "--capacitance", "100", "--json");
    assertTrue(alone.get("captured").get("peakDb").isNull());
    assertFalse(alone.get("response").get(0).has("correctionDb"));
  }
}
