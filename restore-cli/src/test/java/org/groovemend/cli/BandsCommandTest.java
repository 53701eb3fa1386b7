package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.ledger.Sha256;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A side of two bands: 2 s groove, 6 s tones, 2 s groove, 6 s tones, 3 s groove. */
@Tag("long")
class BandsCommandTest {
  private static final int RATE = 22_050;
  private static final double SECOND = 10;

  /** What cuts are held to, seconds. */
  private static final double LIMIT = 0.1;

  @TempDir private static Path dir;
  private static Path side;
  private static byte[] bytes;

  @BeforeAll
  static void makeSide() throws IOException {
    side = dir.resolve("side.wav");
    AudioFormat format = AudioFormat.pcm(RATE, 2, 16);
    Random random = new Random(11);
    int frames = 19 * RATE + 7;
    long[][] words = new long[2][frames];
    for (int i = 0; i < frames; i++) {
      double t = i / (double) RATE;
      boolean music = t > 2 && t < 8 || t > SECOND && t < 16;
      double tone = music ? 0.2 * StrictMath.sin(2 * Math.PI * 440 * t) : 0;
      words[0][i] = Math.round(32_767 * (tone + 2e-3 * random.nextGaussian()));
      words[1][i] = Math.round(32_767 * (0.8 * tone + 2e-3 * random.nextGaussian()));
    }
    try (WavWriter writer =
        WavWriter.create(
            side,
            format,
            frames,
            List.of(WavChunk.of("zzzq", new byte[] {1, 2, 3}), WavChunk.samples()),
            null)) {
      writer.write(words, 0, frames);
    }
    bytes = Files.readAllBytes(side);
  }

  /** Content of the first chunk of a name, by the layout of RIFF alone. */
  private static byte[] chunk(byte[] file, String id) {
    ByteBuffer in = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
    for (int at = 12; at + 8 <= file.length; ) {
      int size = in.getInt(at + 4);
      if (new String(file, at, 4, StandardCharsets.ISO_8859_1).equals(id)) {
        return Arrays.copyOfRange(file, at + 8, at + 8 + size);
      }
      at += 8 + size + size % 2;
    }
    throw new AssertionError("no chunk " + id);
  }

  private static JsonNode json(CommandRun run) throws IOException {
    assertEquals(0, run.code(), run.err());
    return new ObjectMapper().readTree(run.out());
  }

  @Test
  void gapsAreToldAndNothingIsWritten() throws IOException {
    long before = count();
    JsonNode told = json(CommandRun.of("bands", side, "--json"));
    assertEquals(1, told.get("gaps").size());
    assertEquals(SECOND, told.get("gaps").get(0).get("end").asDouble(), LIMIT);
    assertEquals(4, told.get("bands").size());
    assertEquals(SECOND - 0.25, told.get("bands").get(2).get("start").asDouble(), LIMIT);
    assertEquals(before, count());
    assertArrayEquals(bytes, Files.readAllBytes(side));
  }

  private static long count() throws IOException {
    try (Stream<Path> files = Files.walk(dir)) {
      return files.count();
    }
  }

  /** Data chunks laid end to end are that of the side; names, checksums and frames are recorded. */
  @Test
  void piecesAddUpToTheSideWordForWord() throws Exception {
    Path list = Files.writeString(dir.resolve("odd.txt"), "A/b: \"c\"?\nÖ \u266b\n");
    Path out = dir.resolve("cut");
    CommandRun run = CommandRun.of("bands", side, "--list", list, "--out", out, "--quiet");
    assertEquals(0, run.code(), run.err());
    JsonNode record = new ObjectMapper().readTree(out.resolve("side.bands.json").toFile());
    assertEquals(Sha256.of(side), record.get("side").get("sha256").asText());
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    for (JsonNode piece : record.get("bands")) {
      Path file = out.resolve(piece.get("file").asText());
      assertEquals(Sha256.of(file), piece.get("sha256").asText());
      byte[] data = chunk(Files.readAllBytes(file), "data");
      assertEquals(piece.get("frames").asLong() * 4, data.length);
      all.writeBytes(data);
    }
    assertArrayEquals(chunk(bytes, "data"), all.toByteArray());
    assertTrue(Files.exists(out.resolve("side-01-A_b_ _c__.wav")), run.out());
    assertEquals("A/b: \"c\"?", record.get("bands").get(1).get("title").asText());
    // the record is a list too
    JsonNode again =
        json(CommandRun.of("bands", side, "--list", out.resolve("side.bands.json"), "--json"));
    for (int i = 0; i < 4; i++) {
      assertEquals(
          record.get("bands").get(i).get("firstFrame").asLong(),
          again.get("bands").get(i).get("firstFrame").asLong());
    }
  }

  /** FLAC pieces, joined by another program. */
  @Test
  void anotherProgramJoinsThePiecesToTheSide() throws Exception {
    Path out = dir.resolve("flac");
    CommandRun run = CommandRun.of("bands", side, "--out", out, "--as", "flac", "--quiet");
    assertEquals(0, run.code(), run.err());
    List<String> command = new ArrayList<>(List.of("sox"));
    JsonNode record = new ObjectMapper().readTree(out.resolve("side.bands.json").toFile());
    record.get("bands").forEach(p -> command.add(out.resolve(p.get("file").asText()).toString()));
    Path joined = dir.resolve("joined.wav");
    command.add(joined.toString());
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/sox")), "sox is not installed");
    assertEquals(0, new ProcessBuilder(command).inheritIO().start().waitFor());
    assertArrayEquals(chunk(bytes, "data"), chunk(Files.readAllBytes(joined), "data"));
  }

  @Test
  void theMarkedCopyHasTheWordsOfTheSideAndItsMarks() throws Exception {
    Path marked = dir.resolve("marked.wav");
    Path csv = dir.resolve("bands.csv");
    Path png = dir.resolve("bands.png");
    CommandRun run =
        CommandRun.of("bands", side, "--marked", marked, "--labels", csv, "--png", png, "--quiet");
    assertEquals(0, run.code(), run.err());
    byte[] copy = Files.readAllBytes(marked);
    assertArrayEquals(chunk(bytes, "data"), chunk(copy, "data"));
    assertArrayEquals(new byte[] {1, 2, 3}, chunk(copy, "zzzq"));
    ByteBuffer cue = ByteBuffer.wrap(chunk(copy, "cue ")).order(ByteOrder.LITTLE_ENDIAN);
    assertEquals(3, cue.getInt(0));
    assertEquals((SECOND - 0.25) * RATE, cue.getInt(4 + 24 + 20), LIMIT * RATE);
    assertTrue(new String(chunk(copy, "LIST"), StandardCharsets.UTF_8).contains("Band 2"));
    assertEquals(1200, ImageIO.read(png.toFile()).getWidth());
    // a list written, read and cut exactly gives the same list of times
    Path again = dir.resolve("again.csv");
    assertEquals(
        0,
        CommandRun.of("bands", side, "--list", csv, "--exact", "--labels", again, "--quiet")
            .code());
    assertEquals(times(csv), times(again));
  }

  private static List<String> times(Path csv) throws IOException {
    return Files.readAllLines(csv).stream()
        .map(line -> String.join(",", Arrays.copyOf(line.split(","), 6)))
        .toList();
  }

  /** Between the fades the words are those of the side; the end keeps the level of the groove. */
  @Test
  void fadesEndInTheNoiseOfTheGroove() throws Exception {
    Path out = dir.resolve("faded");
    CommandRun run =
        CommandRun.of("bands", side, "--out", out, "--fade-in", 1, "--fade-out", 2, "--quiet");
    assertEquals(0, run.code(), run.err());
    JsonNode record = new ObjectMapper().readTree(out.resolve("side.bands.json").toFile());
    assertEquals(2, record.get("fade").get("outSeconds").asDouble());
    JsonNode band = record.get("bands").get(2);
    byte[] data = chunk(Files.readAllBytes(out.resolve(band.get("file").asText())), "data");
    byte[] original = chunk(bytes, "data");
    int first = band.get("firstFrame").asInt();
    int n = band.get("frames").asInt();
    assertArrayEquals(
        Arrays.copyOfRange(original, 4 * (first + RATE), 4 * (first + n - 2 * RATE)),
        Arrays.copyOfRange(data, 4 * RATE, 4 * (n - 2 * RATE)));
    ByteBuffer words = ByteBuffer.wrap(data).order(ByteOrder.LITTLE_ENDIAN);
    double sum = 0;
    for (int i = n - RATE / 4; i < n; i++) {
      double x = words.getShort(4 * i) / 32_768.0;
      sum += x * x;
    }
    assertEquals(20 * Math.log10(2e-3), 10 * Math.log10(sum / (RATE / 4)), 1);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0:00 A;0:25 B | band 2 of the list begins at 00:25.000, but the side ends at 00:19.000",
        "A;B;C | the list names 3 bands, but 1 gap was found",
        "0:10 A;0:02 B | no later than band 1",
        "+0:40 A;+0:10 B | by the durations of the list, band 1 ends at",
      })
  void listsThatDoNotFitAreOneSentenceAndNothingIsWritten(String lines, String says)
      throws IOException {
    Path list = dir.resolve("bad.txt");
    Files.writeString(list, lines.replace(';', '\n'));
    Path never = dir.resolve("never");
    CommandRun run = CommandRun.of("bands", side, "--list", list, "--out", never);
    assertEquals(ExitCode.USAGE, run.code(), run.out());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertTrue(run.err().contains(says), run.err());
    assertFalse(Files.exists(never));
  }

  @Test
  void placesThatCannotBeWrittenAreOneSentence() throws IOException {
    Path out = dir.resolve("there");
    Files.createDirectories(out);
    Path there = Files.writeString(out.resolve("side-01.wav"), "mine");
    CommandRun exists = CommandRun.of("bands", side, "--out", out);
    assertEquals(ExitCode.OUTPUT_EXISTS, exists.code(), exists.err());
    assertEquals("mine", Files.readString(there));
    try (Stream<Path> files = Files.list(out)) {
      assertEquals(1, files.count());
    }
    CommandRun itself = CommandRun.of("bands", side, "--marked", side, "--replace");
    assertEquals(ExitCode.USAGE, itself.code(), itself.err());
    CommandRun folder = CommandRun.of("bands", side, "--out", side);
    assertEquals(ExitCode.USAGE, folder.code(), folder.err());
    CommandRun missing = CommandRun.of("bands", side, "--list", dir.resolve("none.csv"));
    assertEquals(ExitCode.USAGE, missing.code(), missing.err());
    assertTrue(missing.err().contains("no list"), missing.err());
    assertArrayEquals(bytes, Files.readAllBytes(side));
  }

  @Test
  void sameWordsInEveryContainer() throws IOException {
    Path out = dir.resolve("containers");
    assertEquals(0, CommandRun.of("bands", side, "--out", out, "--keep-ends", "--quiet").code());
    try (SideReader one = SideFiles.open(out.resolve("side-01.wav"));
        SideReader two = SideFiles.open(out.resolve("side-02.wav"));
        SideReader whole = SideFiles.open(side)) {
      SampleDigest parts = new SampleDigest(whole.format());
      for (SideReader part : List.of(one, two)) {
        long[][] words = new long[2][(int) part.frames()];
        part.readWords(0, words[0].length, words, 0);
        parts.update(words, 0, words[0].length);
      }
      SampleDigest all = new SampleDigest(whole.format());
      long[][] words = new long[2][(int) whole.frames()];
      whole.readWords(0, words[0].length, words, 0);
      all.update(words, 0, words[0].length);
      assertEquals(all.hex(), parts.hex());
    }
  }
}
