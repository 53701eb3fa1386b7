package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.file.WavWriter;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Case 1 of EBU Tech 3341, and a tone whose peak lies between the samples, from file to terminal.
 */
@Tag("long")
class InspectLoudnessTest {

  private static final int RATE = 48_000;

  @TempDir private Path dir;

  private Path tone(String name, double hertz, double degrees, double peak) throws IOException {
    long[][] words = new long[2][20 * RATE];
    for (int n = 0; n < words[0].length; n++) {
      double phase = 2 * Math.PI * hertz * n / RATE + Math.toRadians(degrees);
      words[0][n] = Math.round(peak * Math.sin(phase) * (1 << 23));
      words[1][n] = words[0][n];
    }
    Path file = dir.resolve(name);
    try (WavWriter writer =
        WavWriter.create(file, AudioFormat.pcm(RATE, 2, 24), words[0].length, List.of(), null)) {
      writer.write(words, 0, words[0].length);
    }
    return file;
  }

  @Test
  void aPersonFindsLoudnessAndTruePeak() throws IOException {
    Path file = tone("case.wav", 1000, 0, Math.pow(10, -23 / 20.0));
    String said = CommandRun.of("inspect", file).out();
    assertTrue(
        said.contains(
            "  loudness   -23.0 LUFS integrated, range 0.0 LU, loudest 3 s -23.0, loudest 400 ms"
                + " -23.0 LUFS"),
        said);
    assertTrue(said.contains("  true peak  -23.0 dBTP"), said);
  }

  @Test
  void machinesFindThemToo() throws IOException {
    Path file = tone("between.wav", RATE / 4.0, 45, 0.5);
    JsonNode side =
        new ObjectMapper().readTree(CommandRun.of("inspect", file, "--json").out()).get("side");
    JsonNode programme = side.get("programme");
    assertEquals(-6.02, programme.get("truePeakDbtp").asDouble(), 0.2);
    assertEquals(2, programme.get("truePeakDbtpByChannel").size());
    assertEquals(-9.03, side.get("levels").get("channels").get(0).get("peakDbfs").asDouble(), 0.01);
    assertTrue(programme.get("loudness").get("integratedLufs").asDouble() > -6);
  }

  @Test
  void silenceHasNoLoudness() throws IOException {
    String said = CommandRun.of("inspect", tone("silent.wav", 1000, 0, 0)).out();
    assertTrue(said.contains("  loudness   none: "), said);
    assertTrue(said.contains("  true peak  -inf dBTP"), said);
  }
}
