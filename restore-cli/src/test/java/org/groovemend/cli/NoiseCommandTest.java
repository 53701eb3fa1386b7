package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class NoiseCommandTest {
  private static final int RATE = 44_100;

  /** Standard deviation of the white noise in it, full scale 1. */
  private static final double SIGMA = 0.01;

  @TempDir private static Path dir;
  private static Path side;
  private static byte[] bytes;

  /** Four seconds of white noise, then two of tones in the same noise; 16 bits, mono. */
  @BeforeAll
  static void write() throws IOException {
    side = dir.resolve("side.wav");
    Random random = new Random(4);
    int n = 6 * RATE;
    ByteBuffer b = ByteBuffer.allocate(44 + 2 * n).order(ByteOrder.LITTLE_ENDIAN);
    b.put("RIFF".getBytes()).putInt(36 + 2 * n).put("WAVEfmt ".getBytes()).putInt(16);
    b.putShort((short) 1).putShort((short) 1).putInt(RATE).putInt(2 * RATE);
    b.putShort((short) 2).putShort((short) 16).put("data".getBytes()).putInt(2 * n);
    for (int i = 0; i < n; i++) {
      double v = SIGMA * random.nextGaussian();
      if (i >= 4 * RATE) {
        v += 0.2 * Math.sin(0.07 * i) + 0.1 * Math.sin(0.31 * i);
      }
      b.putShort((short) Math.round(32_767 * v));
    }
    bytes = b.array();
    Files.write(side, bytes);
  }

  @Test
  void theLevelsAreThoseOfTheNoise() throws IOException {
    CommandRun run = CommandRun.of("noise", side, "--captured", "flat", "--json");
    assertEquals(0, run.code(), run.err());
    JsonNode leadIn = new ObjectMapper().readTree(run.out()).get("leadIn");
    assertTrue(leadIn.get("toSeconds").asDouble() > 3, run.out());
    double all = leadIn.get("channels").get(0).get("dbfs").asDouble();
    assertEquals(20 * Math.log10(SIGMA), all, 0.2);
    // a third octave of white noise is 0.2316 of its centre wide
    for (JsonNode band : leadIn.get("thirdOctaves")) {
      double hertz = band.get("centreHz").asDouble();
      if (hertz > 500) {
        double expected = 10 * Math.log10(SIGMA * SIGMA * 0.2308 * hertz / (RATE / 2.0));
        assertEquals(expected, band.get("levelDbfs").get(0).asDouble(), 0.6, hertz + " Hz");
      }
    }
    assertTrue(Arrays.equals(bytes, Files.readAllBytes(side)));
  }

  @Test
  void aStatedStretchIsTakenAndThePictureIsNotWrittenOver() throws IOException {
    Path picture = dir.resolve("groove.png");
    CommandRun run =
        CommandRun.of("noise", side, "--lead-in", "1-3", "--captured", "flat", "--png", picture);
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("0:00:01.000 to 0:00:03.000"), run.out());
    assertTrue(run.out().contains("1000 Hz"), run.out());
    assertEquals(1200, ImageIO.read(picture.toFile()).getWidth());
    byte[] before = Files.readAllBytes(picture);
    CommandRun again = CommandRun.of("noise", side, "--captured", "flat", "--png", picture);
    assertEquals(ExitCode.OUTPUT_EXISTS, again.code(), again.err());
    assertTrue(Arrays.equals(before, Files.readAllBytes(picture)));
  }

  @Test
  void withoutABareGrooveOneSentenceSaysWhatToDo() throws IOException {
    Path music = dir.resolve("music.wav");
    byte[] tones = bytes.clone();
    for (int i = 0; i < 6 * RATE; i++) {
      int v = (int) Math.round(6000 * Math.sin(0.07 * i) + 3000 * Math.sin(0.31 * i));
      tones[44 + 2 * i] = (byte) v;
      tones[45 + 2 * i] = (byte) (v >> 8);
    }
    Files.write(music, tones);
    Path picture = dir.resolve("none.png");
    CommandRun run = CommandRun.of("noise", music, "--captured", "flat", "--png", picture);
    assertEquals(ExitCode.USAGE, run.code());
    assertEquals("", run.out());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertTrue(run.err().contains("--lead-in"), run.err());
    assertFalse(Files.exists(picture));
  }
}
