package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.sealed.SealedDocument;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Three plays of two channels, of which one is FLAC and one has another rate. */
@Tag("long")
class ThreePlaysTest {
  private static final int RATE = 22_050;
  private static final double SECONDS = 12;
  private static final double NOISE = 0.002;
  private static final int[] CLICKS = {5000, 9000, 13_000};

  @TempDir private static Path dir;
  private static List<Path> plays;
  private static double[][] clean;

  @BeforeAll
  static void write() throws IOException {
    clean = sound(RATE);
    Path wav = PlayFile.wav(dir.resolve("b.wav"), RATE, NOISE, 2, CLICKS[1], clean);
    plays =
        List.of(
            PlayFile.wav(dir.resolve("a.wav"), RATE, NOISE, 1, CLICKS[0], clean),
            PlayFile.flac(dir.resolve("b.flac"), wav),
            PlayFile.wav(dir.resolve("c.wav"), 24_000, NOISE, 3, CLICKS[2], sound(24_000)));
  }

  /** Different in both channels, the same music at any rate. */
  private static double[][] sound(int rate) {
    double[] one = PlayFile.notes(3, rate, SECONDS);
    double[] other = PlayFile.notes(4, rate, SECONDS);
    double[][] both = new double[2][one.length];
    for (int i = 0; i < one.length; i++) {
      both[0][i] = one[i] + 0.3 * other[i];
      both[1][i] = other[i] + 0.3 * one[i];
    }
    return both;
  }

  @Test
  void threeAreMergedIntoFlacAndNoiseSinks() throws Exception {
    Path out = dir.resolve("all.flac");
    CommandRun run = CommandRun.of("merge", plays.get(0), plays.get(1), plays.get(2), "--out", out);
    assertEquals(0, run.code(), run.err());
    JsonNode record =
        new ObjectMapper()
            .valueToTree(SealedDocument.read(dir.resolve("all.merge.json")).content());
    assertEquals(3, record.get("plays").size());
    assertEquals(Set.of(), PlaysCommandTest.complaints("merge-record", sealed("all.merge.json")));

    int[] of = new int[3];
    for (JsonNode place : record.get("places")) {
      assertEquals(1, place.get("damaged").size(), place.toString());
      of[place.get("damaged").get(0).asInt()]++;
      assertTrue(place.get("source").asInt() != place.get("damaged").get(0).asInt());
    }
    // a click a second in both channels, 12 s, the first and last of which may not be in all plays
    for (int p = 0; p < 3; p++) {
      assertTrue(of[p] >= 20 && of[p] <= 24, "clicks of play " + p + ": " + of[p]);
    }
    // variance of a mean of three: 4.77 dB; some is lost to 16 bits and to the bands' estimates
    double gain = 10 * Math.log10(noise(plays.get(0)) / noise(out));
    assertTrue(gain > 4.3 && gain < 5.1, "noise less by " + gain + " dB");
  }

  private static JsonNode sealed(String name) throws IOException {
    return new ObjectMapper().readTree(dir.resolve(name).toFile());
  }

  /** Mean square of what is not the clean sound, away from clicks. */
  private static double noise(Path file) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      int frames = (int) side.frames();
      long[][] words = new long[2][frames];
      side.readWords(0, frames, words, 0);
      double sum = 0;
      int n = 0;
      for (int i = RATE; i < frames - RATE; i++) {
        int at = i % RATE;
        if (Arrays.stream(CLICKS).noneMatch(c -> Math.abs(at - c) < 60)) {
          double e = words[0][i] / 32_000.0 - clean[0][i];
          sum += e * e;
          n++;
        }
      }
      return sum / n;
    }
  }

  @Test
  void allAreCompared() throws Exception {
    CommandRun run =
        CommandRun.of(
            "compare", plays.get(0), plays.get(1), plays.get(2), "--captured", "flat", "--json");
    assertEquals(0, run.code(), run.err());
    JsonNode said = new ObjectMapper().readTree(run.out());
    assertEquals(Set.of(), PlaysCommandTest.complaints("comparison", said));
    assertEquals(3, said.get("ranking").size());
    double most = Double.NEGATIVE_INFINITY;
    double least = Double.POSITIVE_INFINITY;
    for (JsonNode play : said.get("plays")) {
      most = Math.max(most, play.get("ownNoiseDba").asDouble());
      least = Math.min(least, play.get("ownNoiseDba").asDouble());
      // 12 a minute and channel times five
      assertEquals(120, play.get("clicksAloneAMinute").asDouble(), 15);
    }
    // of equal strength
    assertTrue(most - least < 1, least + " to " + most);
  }
}
