package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.groovemend.ledger.Sha256;
import org.groovemend.sealed.SealedDocument;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code compare} and {@code merge}, on two plays of which one starts later. */
@Tag("long")
class PlaysCommandTest {
  private static final int RATE = 22_050;
  private static final int FRAMES = 12 * RATE;
  private static final int LATER = 4321;
  private static final double QUIET = 0.002;
  private static final Path DOCS = Path.of(System.getProperty("basedir", "."), "..", "docs");

  @TempDir private static Path dir;
  private static Path quiet;
  private static Path noisy;

  @BeforeAll
  static void write() throws IOException {
    double[] sound = sound(3, FRAMES + LATER);
    quiet = play("quiet.wav", sound, LATER, QUIET, 5, 1);
    noisy = play("noisy.wav", sound, 0, 2 * QUIET, 6, 1);
  }

  /** Plucked notes at random moments. */
  private static double[] sound(long seed, int frames) {
    Random random = new Random(seed);
    double[] x = new double[frames];
    for (int at = RATE / 4; at < frames - RATE; at += RATE / 8 + random.nextInt(RATE / 4)) {
      double hertz = 150 * Math.pow(2, 3 * random.nextDouble());
      for (int i = 0; i < RATE; i++) {
        double fade = Math.min(1, i / 60.0) * Math.exp(-5.0 * i / RATE);
        for (int k = 1; k <= 8; k++) {
          x[at + i] += 0.08 * fade / k * Math.sin(2 * Math.PI * hertz * k * i / RATE);
        }
      }
    }
    return x;
  }

  private static Path play(
      String name, double[] sound, int first, double noise, long seed, int channels)
      throws IOException {
    Random random = new Random(seed);
    ByteBuffer out = ByteBuffer.allocate(44 + 2 * channels * FRAMES).order(ByteOrder.LITTLE_ENDIAN);
    out.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 2 * channels * FRAMES);
    out.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16).putShort((short) 1);
    out.putShort((short) channels).putInt(RATE).putInt(2 * channels * RATE);
    out.putShort((short) (2 * channels)).putShort((short) 16);
    out.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(2 * channels * FRAMES);
    for (int i = 0; i < FRAMES; i++) {
      for (int c = 0; c < channels; c++) {
        double value = sound[first + i] + noise * random.nextGaussian();
        // a click each second, where only this play has it
        value += i % RATE == 5000 + 1000 * seed ? 0.3 : 0;
        out.putShort((short) Math.round(32_000 * value));
      }
    }
    return Files.write(dir.resolve(name), out.array());
  }

  @Test
  void theQuieterPlayIsTold() throws Exception {
    Path page = dir.resolve("plays.html");
    Path png = dir.resolve("plays.png");
    CommandRun run =
        CommandRun.of(
            "compare", noisy, quiet, "--captured", "flat", "--json", "--page", page, "--png", png);
    assertEquals(0, run.code(), run.err());
    JsonNode result = new ObjectMapper().readTree(run.out());
    assertEquals(Set.of(), complaints("comparison", result));
    assertEquals(1, result.get("ranking").get(0).asInt());
    JsonNode loud = result.get("plays").get(0);
    JsonNode soft = result.get("plays").get(1);
    // noise twice as strong: 6.02 dB
    assertEquals(6.02, loud.get("ownNoiseDba").asDouble() - soft.get("ownNoiseDba").asDouble(), 1);
    // the noisier one starts earlier on the disc
    assertEquals(
        -LATER / (double) RATE, soft.get("alignment").get("offsetSeconds").asDouble(), 0.05);
    assertEquals(1200, ImageIO.read(png.toFile()).getWidth());
    assertEquals(
        5,
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(page.toFile())
            .getElementsByTagName("img")
            .getLength());
    CommandRun words = CommandRun.of("compare", noisy, quiet, "--captured", "flat");
    assertTrue(words.out().contains("quiet.wav is the better play"), words.out());
  }

  @Test
  void aFailureFitsTheSchemaTooAndADamagedComparisonDoesNot() throws Exception {
    CommandRun run = CommandRun.of("compare", quiet, dir.resolve("none.wav"), "--json");
    assertEquals(ExitCode.INPUT_REFUSED, run.code());
    JsonNode said = new ObjectMapper().readTree(run.out());
    assertEquals(Set.of(), complaints("comparison", said));
    ((ObjectNode) said.get("error")).remove("kind");
    assertFalse(complaints("comparison", said).isEmpty());
  }

  @Test
  void aMergeTellsWhatItIsMadeOf() throws Exception {
    byte[] before = Files.readAllBytes(quiet);
    Path out = dir.resolve("both.wav");
    CommandRun run = CommandRun.of("merge", quiet, noisy, "--out", out, "--threads", "1");
    assertEquals(0, run.code(), run.err());
    Map<String, Object> record = SealedDocument.read(dir.resolve("both.merge.json")).content();
    JsonNode all = new ObjectMapper().valueToTree(record);
    assertEquals(Sha256.of(quiet), all.get("plays").get(0).get("sha256").asText());
    assertEquals(Sha256.of(noisy), all.get("plays").get(1).get("sha256").asText());
    assertEquals(Sha256.of(out), all.get("output").get("sha256").asText());
    assertEquals(FRAMES, all.get("output").get("frames").asLong());
    int ofQuiet = 0;
    for (JsonNode place : all.get("places")) {
      ofQuiet +=
          place.get("damaged").get(0).asInt() == 0 && place.get("source").asInt() == 1 ? 1 : 0;
    }
    // a click in every second that both plays have
    assertTrue(ofQuiet >= 10 && ofQuiet <= 12, "clicks of the quiet play: " + ofQuiet);
    assertArrayEquals(before, Files.readAllBytes(quiet));
    assertTrue(
        new String(Files.readAllBytes(out), StandardCharsets.ISO_8859_1)
            .contains("merged from 2 plays; both.merge.json"));

    ObjectNode written =
        (ObjectNode) new ObjectMapper().readTree(dir.resolve("both.merge.json").toFile());
    assertEquals(Set.of(), complaints("merge-record", written));
    ((ObjectNode) written.get("places").get(0)).putNull("source");
    assertFalse(complaints("merge-record", written).isEmpty(), "a place that has no source");

    CommandRun again = CommandRun.of("merge", quiet, noisy, "--out", out);
    assertEquals(ExitCode.OUTPUT_EXISTS, again.code(), again.err());
    assertEquals(all.get("output").get("sha256").asText(), Sha256.of(out));
  }

  @Test
  void theSameFileTwiceIsRefused() throws Exception {
    Path copy = Files.copy(quiet, dir.resolve("copy.wav"));
    refused(ExitCode.USAGE, "are the same file", quiet, quiet);
    refused(ExitCode.USAGE, "hold the same samples", quiet, copy);
  }

  @Test
  void whatIsNoPlayOfTheSideIsRefused() throws Exception {
    double[] sound = sound(3, FRAMES + LATER);
    Path other = play("other.wav", sound(77, FRAMES), 0, QUIET, 7, 1);
    Path stereo = play("stereo.wav", sound, 0, QUIET, 8, 2);
    refused(ExitCode.INPUT_REFUSED, "it is no play of the performance of quiet.wav", quiet, other);
    refused(ExitCode.INPUT_REFUSED, "it has two channels, but quiet.wav has one", quiet, stereo);
    refused(ExitCode.INPUT_REFUSED, "there is no such file", quiet, dir.resolve("missing.wav"));
    refused(ExitCode.USAGE, "one play is not enough", quiet);
  }

  static Set<?> complaints(String schema, JsonNode said) throws IOException {
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
        .getSchema(Files.readString(DOCS.resolve("reference").resolve(schema + ".schema.json")))
        .validate(said);
  }

  private static void refused(int code, String words, Path... plays) throws IOException {
    Path out = dir.resolve("never.wav");
    Object[] line = new Object[plays.length + 3];
    line[0] = "merge";
    System.arraycopy(plays, 0, line, 1, plays.length);
    line[plays.length + 1] = "--out";
    line[plays.length + 2] = out;
    CommandRun run = CommandRun.of(line);
    assertEquals(code, run.code(), run.err());
    assertTrue(run.err().contains(words), run.err());
    assertFalse(Files.exists(out));
  }
}
