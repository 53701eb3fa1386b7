package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import javax.imageio.ImageIO;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.SideFiles;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Tag("long")
class SpeedCommandTest {
  private static final int RATE = 16_000;
  private static final int SECONDS = 12;

  /** By how much the invented side is played too fast. */
  private static final double FAST = 1.01;

  @TempDir private static Path dir;
  private static Path side;
  private static byte[] bytes;

  /** Notes of a scale at A = 440 Hz, two at a time, all too sharp. */
  @BeforeAll
  static void write() throws IOException {
    Random random = new Random(2);
    double[] x = new double[SECONDS * RATE];
    int[] scale = {0, 2, 4, 5, 7, 9, 11, 12};
    for (int start = 0; start + RATE / 2 <= x.length; start += RATE / 4) {
      double hertz = 220 * FAST * Math.pow(2, scale[random.nextInt(scale.length)] / 12.0);
      for (int i = 0; i < RATE / 2; i++) {
        double envelope = Math.min(1, i / 300.0) * Math.min(1, (RATE / 2 - i) / 500.0);
        for (int k = 1; k <= 3; k++) {
          x[start + i] += 0.1 / k * envelope * Math.sin(2 * Math.PI * hertz * k * i / RATE);
        }
      }
    }
    side = dir.resolve("side.wav");
    bytes = wav(side, SECONDS * RATE, i -> x[i] + 1e-4 * random.nextGaussian());
  }

  private static byte[] wav(Path file, int frames, IntToDoubleFunction value) throws IOException {
    ByteBuffer b = ByteBuffer.allocate(44 + 2 * frames).order(ByteOrder.LITTLE_ENDIAN);
    b.put("RIFF".getBytes()).putInt(36 + 2 * frames).put("WAVEfmt ".getBytes()).putInt(16);
    b.putShort((short) 1).putShort((short) 1).putInt(RATE).putInt(2 * RATE);
    b.putShort((short) 2).putShort((short) 16).put("data".getBytes()).putInt(2 * frames);
    for (int i = 0; i < frames; i++) {
      b.putShort((short) Math.round(32_767 * value.applyAsDouble(i)));
    }
    Files.write(file, b.array());
    return b.array();
  }

  private static JsonNode json(CommandRun run) throws IOException {
    assertEquals(0, run.code(), run.err());
    return new ObjectMapper().readTree(run.out());
  }

  private static String sha256(Path file) throws Exception {
    return HexFormat.of()
        .formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file)));
  }

  @Test
  void theTuningTellsTheFactorAndItsDoubt() throws IOException {
    Path picture = dir.resolve("pitch.png");
    JsonNode heard = json(CommandRun.of("speed", side, "--json", "--png", picture)).get("heard");
    JsonNode tuning = heard.get("evidence").get(0);
    assertEquals("TUNING", tuning.get("kind").asText());
    assertTrue(tuning.get("low").asDouble() < 1 / FAST, heard.toString());
    assertTrue(tuning.get("high").asDouble() > 1 / FAST, heard.toString());
    assertTrue(heard.get("doubts").toString().contains("semitones"), heard.toString());
    assertFalse(heard.get("wow").get("found").asBoolean());
    assertEquals(1200, ImageIO.read(picture.toFile()).getWidth());
    assertArrayEquals(bytes, Files.readAllBytes(side));
    CommandRun text = CommandRun.of("speed", side);
    assertTrue(text.out().contains("tuning") && text.out().contains("cents"), text.out());
  }

  @Test
  void aCopyIsWrittenWithItsRecordAndTheSideIsLeft() throws Exception {
    Path copy = dir.resolve("right.wav");
    JsonNode told =
        json(
            CommandRun.of(
                "speed",
                side,
                "--played",
                "45",
                "--meant",
                "78.26",
                "--rate",
                "22050",
                "--out",
                copy,
                "--json"));
    assertTrue(told.get("heard").isNull(), "nothing had to be heard");
    double factor = 7200.0 / 92 / 45;
    long frames = (long) Math.ceil(SECONDS * 22_050 / factor - 1e-6);
    assertEquals(frames, told.get("copy").get("frames").asLong());
    JsonNode record = new ObjectMapper().readTree(dir.resolve("right.speed.json").toFile());
    assertEquals(factor, record.get("factor").asDouble(), 1e-15);
    assertEquals("side.wav", record.get("original").get("name").asText());
    assertEquals(sha256(side), record.get("original").get("sha256").asText());
    assertEquals(sha256(copy), record.get("copy").get("sha256").asText());
    assertTrue(record.get("basis").asText().contains("made for 78.26"), record.toString());
    assertArrayEquals(bytes, Files.readAllBytes(side));
    try (SideReader read = SideFiles.open(copy)) {
      assertEquals(frames, read.frames());
      assertEquals(22_050, read.format().sampleRateHz());
      assertTrue(read.parts().toString().contains("bext"), read.parts().toString());
    }
  }

  /** The copy at the factor found is in tune: heard again, it needs none. */
  @Test
  void whatWasFoundPutsItRight() throws IOException {
    Path copy = dir.resolve("found.flac");
    JsonNode told =
        json(
            CommandRun.of(
                "speed", side, "--factor", "found", "--take-out-wow", "--out", copy, "--json"));
    JsonNode record = new ObjectMapper().readTree(dir.resolve("found.speed.json").toFile());
    assertTrue(record.get("wow").isNull());
    assertTrue(record.get("basis").asText().contains("none was taken out"), record.toString());
    assertTrue(told.get("copy").get("file").asText().endsWith("found.flac"));
    JsonNode again = json(CommandRun.of("speed", copy, "--json")).get("heard").get("evidence");
    assertEquals(1, again.get(0).get("factor").asDouble(), 2e-4);
  }

  @Test
  void sameBytesOnAnyNumberOfThreads() throws Exception {
    List<String> sums = new ArrayList<>();
    for (int threads : new int[] {1, 3}) {
      Path copy = dir.resolve("threads" + threads + ".wav");
      CommandRun run =
          CommandRun.of(
              "speed", side, "--drift", "0:1.01,5:1,10:0.99", "--threads", threads, "--out", copy);
      assertEquals(0, run.code(), run.err());
      // the bext chunk names its own record; the samples end the file
      byte[] all = Files.readAllBytes(copy);
      sums.add(HexFormat.of().formatHex(Arrays.copyOfRange(all, all.length - 300_000, all.length)));
    }
    assertEquals(sums.get(0), sums.get(1));
  }

  @Test
  void factorOneAtAnotherRateKeepsThePitch() throws IOException {
    Path tone = dir.resolve("tone.wav");
    wav(tone, RATE, i -> 0.5 * Math.sin(2 * Math.PI * 1000 * i / RATE));
    Path copy = dir.resolve("tone48.wav");
    CommandRun run = CommandRun.of("speed", tone, "--rate", "48000", "--out", copy);
    assertEquals(0, run.code(), run.err());
    try (SideReader read = SideFiles.open(copy)) {
      long[][] words = new long[1][(int) read.frames()];
      read.readWords(0, words[0].length, words, 0);
      for (int i = 5000; i < 40_000; i++) {
        double expected = 0.5 * Math.sin(2 * Math.PI * 1000 * i / 48_000);
        // quantised twice to 16 bits, once with dither
        assertEquals(expected, Words.toDouble(words[0][i], read.format()), 2.6 / 32_768);
      }
    }
  }

  /** The time of the first frame is the same at another rate; what counts frames stays behind. */
  @Test
  void chunksAreCarriedWhereTheyStillHold() throws IOException {
    Path chunked = dir.resolve("chunked.wav");
    SmallSide.write(chunked, 1);
    byte[] all = Files.readAllBytes(chunked);
    int bext = 12 + 24 + 8;
    ByteBuffer.wrap(all).order(ByteOrder.LITTLE_ENDIAN).putLong(bext + 338, 10L * SmallSide.RATE);
    Files.write(chunked, all);
    Path copy = dir.resolve("carried.wav");
    JsonNode told =
        json(CommandRun.of("speed", chunked, "--rate", "48000", "--out", copy, "--json"));
    assertEquals("[\"zzzq\"]", told.get("copy").get("chunksLeftOut").toString());
    try (SideReader read = SideFiles.open(copy)) {
      BroadcastExtension now =
          BroadcastExtension.parse(
              read.wavChunks().stream()
                  .filter(c -> c.id().equals("bext"))
                  .map(c -> bytesOf(copy, c.fileOffset(), (int) c.size()))
                  .findFirst()
                  .orElseThrow());
      assertEquals(480_000, now.timeReference());
      assertEquals("Invented side, made by a test", now.description());
      assertTrue(now.codingHistory().contains("F=48000"), now.codingHistory());
      assertTrue(now.codingHistory().contains("carried.speed.json"), now.codingHistory());
    }
  }

  private static byte[] bytesOf(Path file, long at, int size) {
    try {
      return Arrays.copyOfRange(Files.readAllBytes(file), (int) at, (int) at + size);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--factor 5 | outside 0.25 to 4",
        "--factor fast | no number",
        "--factor NaN | outside 0.25 to 4",
        "--factor 1 | nothing is to be changed",
        "--played 200 --meant 45 | no speed of a disc",
        "--played 16.67 --meant 78.26 | outside 0.25 to 4",
        "--drift 3 | SECONDS:FACTOR",
        "--drift 0:1,0:1.1 | not in order",
        "--drift 0:1,99:1.01 | the side ends at 12.000 s",
        "--factor 1.01 --rate 4000 | outside 8000 to 384000",
        "--factor 1.01 --pitch 44 | 380 to 480",
        "--take-out-wow --radii 60-146 | no groove",
        "--take-out-wow --radii big | OUTER-INNER",
      })
  void whatCannotBeIsOneSentenceAndNothingIsWritten(String options, String says) {
    Path copy = dir.resolve("never.wav");
    List<Object> arguments = new ArrayList<>(List.of("speed", side, "--out", copy));
    arguments.addAll(List.of(options.split(" ")));
    refused(CommandRun.of(arguments.toArray()), says, copy);
  }

  private static void refused(CommandRun run, String says, Path copy) {
    assertEquals(ExitCode.USAGE, run.code(), run.out());
    assertEquals("", run.out());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertTrue(run.err().contains(says), run.err());
    assertFalse(Files.exists(copy), "a copy was written");
    assertFalse(Files.exists(dir.resolve("never.speed.json")), "a record was written");
  }

  @Test
  void aSideThatTellsNothingIsRefused() throws IOException {
    Random random = new Random(3);
    Path copy = dir.resolve("never.wav");
    Path mute = dir.resolve("silence.wav");
    wav(mute, SECONDS * RATE, i -> 0);
    Path noise = dir.resolve("noise.wav");
    wav(noise, SECONDS * RATE, i -> 0.1 * random.nextGaussian());
    Path brief = dir.resolve("short.wav");
    wav(brief, RATE / 2, i -> 0.3 * Math.sin(0.2 * i));
    for (Path file : List.of(mute, noise, brief)) {
      refused(CommandRun.of("speed", file), "nothing in this side tells its speed", copy);
      refused(
          CommandRun.of("speed", file, "--factor", "found", "--out", copy),
          "nothing in this side tells its speed",
          copy);
    }
  }

  @Test
  void namesThatCannotBeAreSaid() throws IOException {
    refused(
        CommandRun.of("speed", side, "--factor", "1.1", "--out", dir.resolve("never.mp3")),
        ".wav",
        dir.resolve("never.mp3"));
    refused(CommandRun.of("speed", side, "--factor", "1.1"), "--out", dir.resolve("never.wav"));
    CommandRun itself = CommandRun.of("speed", side, "--factor", "1.1", "--out", side, "--replace");
    assertEquals(ExitCode.USAGE, itself.code(), itself.err());
    Path there = dir.resolve("there.wav");
    Files.write(there, new byte[] {1});
    CommandRun exists = CommandRun.of("speed", side, "--factor", "1.1", "--out", there);
    assertEquals(ExitCode.OUTPUT_EXISTS, exists.code(), exists.err());
    assertArrayEquals(new byte[] {1}, Files.readAllBytes(there));
    assertFalse(Files.exists(dir.resolve("there.speed.json")));
    assertArrayEquals(bytes, Files.readAllBytes(side));
  }
}
