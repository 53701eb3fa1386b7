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
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WallsCommandTest {

  @TempDir private static Path dir;
  private static Path side;

  @BeforeAll
  static void write() throws IOException {
    side = dir.resolve("side.wav");
    SmallSide.write(side, 3, 8 * SmallSide.RATE);
  }

  @Test
  void figuresAreTold() throws IOException {
    byte[] before = Files.readAllBytes(side);
    CommandRun run = CommandRun.of("walls", side, "--json");
    assertEquals(0, run.code(), run.err());
    JsonNode result = new ObjectMapper().readTree(run.out()).get("result");
    assertEquals("LATERAL", result.get("verdict").asText(), run.out());
    assertEquals(0, result.get("delay").get("samples").asDouble(), 0.05);
    // the octave of a tone; pulses on both walls, one of them weaker, tip those without
    assertEquals(0, result.get("bands").get(4).get("balanceDb").asDouble(), 0.1);
    assertTrue(result.get("bands").size() > 8, run.out());
    assertTrue(Arrays.equals(before, Files.readAllBytes(side)));
    CommandRun words = CommandRun.of("walls", side);
    assertTrue(words.out().contains("verdict      lateral, confidence 100 %"), words.out());
    assertTrue(words.out().contains("crosstalk    not to be told"), words.out());
  }

  @Test
  void aPictureIsDrawnAndNotWrittenOver() throws IOException {
    Path picture = dir.resolve("walls.png");
    CommandRun run = CommandRun.of("walls", side, "--png", picture);
    assertEquals(0, run.code(), run.err());
    assertEquals(1200, ImageIO.read(picture.toFile()).getWidth());
    CommandRun again = CommandRun.of("walls", side, "--png", picture);
    assertEquals(ExitCode.OUTPUT_EXISTS, again.code(), again.err());
  }

  @Test
  void aSideOfOneChannelIsToldAndNotDrawn() throws IOException {
    Path mono = dir.resolve("mono.wav");
    byte[] all = Files.readAllBytes(side);
    // the same words taken as one channel
    all[12 + 10] = 1;
    all[12 + 20] = 3;
    int rate = SmallSide.RATE * 3;
    for (int i = 0; i < 4; i++) {
      all[12 + 16 + i] = (byte) (rate >> (8 * i));
    }
    Files.write(mono, all);
    CommandRun run = CommandRun.of("walls", mono);
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("one channel"), run.out());
    Path picture = dir.resolve("none.png");
    CommandRun drawn = CommandRun.of("walls", mono, "--png", picture);
    assertEquals(ExitCode.USAGE, drawn.code(), drawn.err());
    assertEquals(1, drawn.err().strip().lines().count(), drawn.err());
    assertFalse(Files.exists(picture));
  }
}
