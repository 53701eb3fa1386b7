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
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class GrooveOfTest {
  private static final int RATE = 44_100;
  private static final double SIGMA = 0.01;

  @TempDir private Path dir;
  private Path front;
  private Path back;

  /** Front: four seconds of bare groove, then tones. Back: tones from the first sample on. */
  @BeforeEach
  void write() throws IOException {
    front = Files.write(dir.resolve("front.wav"), side(4, RATE, 1));
    back = Files.write(dir.resolve("back.wav"), side(0, RATE, 2));
  }

  private static byte[] side(int bareSeconds, int rate, long seed) {
    Random random = new Random(seed);
    int n = 6 * rate;
    ByteBuffer b = ByteBuffer.allocate(44 + 2 * n).order(ByteOrder.LITTLE_ENDIAN);
    b.put("RIFF".getBytes()).putInt(36 + 2 * n).put("WAVEfmt ".getBytes()).putInt(16);
    b.putShort((short) 1).putShort((short) 1).putInt(rate).putInt(2 * rate);
    b.putShort((short) 2).putShort((short) 16).put("data".getBytes()).putInt(2 * n);
    for (int i = 0; i < n; i++) {
      double v = SIGMA * random.nextGaussian();
      if (i >= bareSeconds * rate) {
        v += tones(i);
      }
      b.putShort((short) Math.round(32_767 * v));
    }
    return b.array();
  }

  private static double tones(int i) {
    return 0.2 * Math.sin(0.07 * i) + 0.1 * Math.sin(0.31 * i);
  }

  private CommandRun restore(Object... more) {
    Object[] all =
        new Object[] {
          "restore", back, "--captured", "flat", "--out", dir.resolve("out"), "--no-clips"
        };
    Object[] args = Arrays.copyOf(all, all.length + more.length);
    System.arraycopy(more, 0, args, all.length, more.length);
    return CommandRun.of(args);
  }

  @Test
  void theNoiseOfASideWithoutBareGrooveFalls() throws Exception {
    byte[] before = Files.readAllBytes(front);
    CommandRun without = restore("--noise-db", "12");
    assertEquals(0, without.code(), without.err());
    assertTrue(without.out().contains("--groove-of"), without.out());
    CommandRun with = restore("--noise-db", "12", "--groove-of", front, "--replace");
    assertEquals(0, with.code(), with.err());
    assertTrue(Arrays.equals(before, Files.readAllBytes(front)));

    byte[] copy = Files.readAllBytes(dir.resolve("out/back.restored.wav"));
    ByteBuffer samples = ByteBuffer.wrap(copy).order(ByteOrder.LITTLE_ENDIAN);
    int data = copy.length - 2 * 6 * RATE;
    double error = 0;
    int count = 0;
    for (int i = RATE; i < 5 * RATE; i++) {
      double e = samples.getShort(data + 2 * i) / 32_767.0 - tones(i);
      error += e * e;
      count++;
    }
    double fallen = 10 * Math.log10(error / count / (SIGMA * SIGMA));
    assertTrue(fallen < -10 && fallen > -12.5, fallen + " dB");

    JsonNode noise = null;
    for (String line : Files.readAllLines(dir.resolve("out/back.ledger.jsonl"))) {
      JsonNode record = new ObjectMapper().readTree(line);
      if ("noise".equals(record.path("name").asText())) {
        noise = record.get("result");
      }
    }
    assertEquals("front.wav", noise.get("of").get("name").asText());
    String sha256 = HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(before));
    assertEquals(sha256, noise.get("of").get("sha256").asText());
    assertTrue(Files.readString(dir.resolve("out/back.report.html")).contains("of front.wav"));
  }

  @Test
  void aSideMadeInAnotherWayIsRefused() throws IOException {
    Path other = Files.write(dir.resolve("other.wav"), side(4, 48_000, 3));
    CommandRun run = restore("--groove-of", other);
    assertEquals(ExitCode.USAGE, run.code());
    assertTrue(run.err().contains("48000 Hz"), run.err());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertFalse(Files.exists(dir.resolve("out/back.restored.wav")));
  }

  @Test
  void aSideWithoutBareGrooveOrAMissingOneIsRefused() {
    CommandRun none = restore("--groove-of", back);
    assertEquals(ExitCode.USAGE, none.code());
    assertTrue(none.err().contains("back.wav"), none.err());
    CommandRun missing = restore("--groove-of", dir.resolve("nowhere.wav"));
    assertEquals(ExitCode.INPUT_REFUSED, missing.code(), missing.err());
    assertTrue(missing.err().contains("nowhere.wav"), missing.err());
    CommandRun both = restore("--groove-of", front, "--lead-in", "0-1");
    assertEquals(ExitCode.USAGE, both.code(), both.err());
  }
}
