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
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.measure.LoudnessMeter;
import org.groovemend.playback.PlaybackCurve;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Tag("long")
class CurveCommandTest {

  @TempDir private Path dir;

  private static JsonNode json(CommandRun run) throws IOException {
    return new ObjectMapper().readTree(run.out());
  }

  @Test
  void theListHasEveryCurveAndWhatIsFromMemory() {
    CommandRun run = CommandRun.of("curve");
    assertEquals(0, run.code(), run.err());
    for (String key : org.groovemend.playback.CurveTable.keys()) {
      assertTrue(run.out().contains(key + " "), key);
    }
    assertTrue(run.out().contains("from memory"), run.out());
    run.out().lines().forEach(line -> assertTrue(line.length() <= 98, line));
  }

  @Test
  void theTableIsThatOfTheStandard() {
    CommandRun run = CommandRun.of("curve", "riaa", "--rate", "96000");
    assertEquals(0, run.code(), run.err());
    // IEC 60098, two decimals of the exact curve
    assertTrue(run.out().contains("       50         16.95"), run.out());
    assertTrue(run.out().contains("    10000        -13.73"), run.out());
    assertTrue(run.out().contains("at 96000 Hz: within 0.005 dB"), run.out());
  }

  /** The exported sections, evaluated here, are the curve; their inverse is its negative. */
  @Test
  void coefficientsAreTheCurve() throws IOException {
    CommandRun run = CommandRun.of("curve", "riaa", "--rate", "48000", "--json");
    assertEquals(0, run.code(), run.err());
    JsonNode digital = json(run).get("curves").get(0).get("digital");
    for (double hertz : new double[] {20, 100, 1000, 5000, 20_000}) {
      double expected = PlaybackCurve.MICROGROOVE.gainDb(hertz);
      double w = 2 * Math.PI * hertz / 48_000;
      assertEquals(expected, gain(digital.get("apply"), w), 0.01);
      assertEquals(-expected, gain(digital.get("undo"), w), 0.01);
    }
  }

  private static double gain(JsonNode sections, double w) {
    double db = 0;
    for (JsonNode s : sections) {
      db += power(s.get("b0").asDouble(), s.get("b1").asDouble(), s.get("b2").asDouble(), w);
      db -= power(1, s.get("a1").asDouble(), s.get("a2").asDouble(), w);
    }
    return db;
  }

  private static double power(double c0, double c1, double c2, double w) {
    double re = c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w);
    double im = c1 * Math.sin(w) + c2 * Math.sin(2 * w);
    return 10 * Math.log10(re * re + im * im);
  }

  @Test
  void picturesAreWrittenAndNotWrittenOver() throws Exception {
    Path png = dir.resolve("c.png");
    Path svg = dir.resolve("c.svg");
    CommandRun run = CommandRun.of("curve", "riaa", "250/0", "--png", png, "--svg", svg);
    assertEquals(0, run.code(), run.err());
    assertEquals(1200, ImageIO.read(png.toFile()).getWidth());
    var root =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(svg.toFile())
            .getDocumentElement();
    assertEquals("svg", root.getTagName());
    assertEquals(2, root.getElementsByTagName("polyline").getLength());
    byte[] before = Files.readAllBytes(png);
    assertEquals(ExitCode.OUTPUT_EXISTS, CommandRun.of("curve", "nab", "--png", png).code());
    assertTrue(Arrays.equals(before, Files.readAllBytes(png)));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "riia|did you mean \"riaa\"",
        "coarse-ice|did you mean \"coarse-iec\"",
        "500/99|roll-off",
        "us:1,2,3|do not fall"
      })
  void whatIsNoCurveIsRefusedInOneSentence(String curve, String words) {
    CommandRun run = CommandRun.of("curve", curve);
    assertEquals(ExitCode.USAGE, run.code());
    assertEquals("", run.out());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertTrue(run.err().contains(words), run.err());
  }

  @Test
  void candidatesAreEquallyLoudAndTheSideIsUntouched() throws Exception {
    Path side = dir.resolve("side.wav");
    SmallSide.write(side, 5, 6 * SmallSide.RATE);
    byte[] before = Files.readAllBytes(side);
    Path out = dir.resolve("listen");
    CommandRun run =
        CommandRun.of(
            "curve",
            side,
            "--compare",
            "riaa,250/0,us:-,318,50",
            "--passage",
            "1.5-5.5",
            "--out",
            out);
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("evidence, not proof"), run.out());
    assertTrue(Arrays.equals(before, Files.readAllBytes(side)));
    JsonNode figures =
        new ObjectMapper().readTree(Files.readAllBytes(out.resolve("side.curves.json")));
    double target = figures.get("loudnessLufs").asDouble();
    byte[] last = new byte[0];
    for (JsonNode candidate : figures.get("candidates")) {
      Path file = out.resolve(candidate.get("file").asText());
      try (SideReader reader = SideFiles.open(file)) {
        int n = (int) reader.frames();
        assertEquals(4 * SmallSide.RATE, n);
        long[][] words = new long[2][n];
        double[][] x = new double[2][n];
        reader.readWords(0, n, words, 0);
        double peak = 0;
        for (int c = 0; c < 2; c++) {
          Words.toDoubles(words[c], 0, x[c], 0, n, reader.format());
          peak = Math.max(peak, Arrays.stream(x[c]).map(Math::abs).max().orElseThrow());
        }
        assertTrue(peak <= Math.pow(10, -1 / 20.0) + 1e-6, "peak " + peak);
        LoudnessMeter meter = new LoudnessMeter(SmallSide.RATE, 2);
        meter.accept(x, n);
        // the fades take a little
        assertEquals(target, meter.finish().integratedLufs(), 0.05, file.toString());
      }
      byte[] bytes = Files.readAllBytes(file);
      assertFalse(Arrays.equals(bytes, last));
      last = bytes;
    }
    // against the flat treble the standard's lowers a band by what its table says
    JsonNode riaa = figures.get("candidates").get(0);
    JsonNode flat = figures.get("candidates").get(1);
    assertEquals(-13.73 + 0.26, level(riaa, 26) - level(flat, 26), 0.15, "third octave of 10 kHz");
    assertEquals(
        ExitCode.OUTPUT_EXISTS,
        CommandRun.of("curve", side, "--compare", "riaa", "--passage", "1.5-5.5", "--out", out)
            .code());
  }

  /** Counted from 25 Hz on. */
  private static double level(JsonNode candidate, int band) {
    JsonNode b = candidate.get("thirdOctaves").get(band);
    assertEquals(10_000, b.get("centreHz").asDouble(), 1);
    return b.get("levelDbfs").asDouble();
  }

  @Test
  void badPassagesLeaveNothingBehind() throws IOException {
    Path side = dir.resolve("short.wav");
    SmallSide.write(side, 5);
    Path out = dir.resolve("nothing");
    for (List<String> bad :
        List.of(
            List.of("--passage", "1-9"),
            List.of("--passage", "1-1.5"),
            List.of("--passage", "9-1"),
            List.<String>of())) {
      Object[] args =
          Stream.concat(
                  Stream.of("curve", side, "--compare", "riaa,nab", "--out", out), bad.stream())
              .toArray();
      CommandRun run = CommandRun.of(args);
      assertEquals(ExitCode.USAGE, run.code(), bad.toString());
      assertEquals(1, run.err().strip().lines().count(), run.err());
      assertFalse(Files.exists(out));
    }
  }
}
