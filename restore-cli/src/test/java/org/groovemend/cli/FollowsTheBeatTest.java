package org.groovemend.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Ticks are put at the beginnings of notes, away from them, and anywhere. */
@Tag("long")
class FollowsTheBeatTest {

  private static final int RATE = 22_050;
  private static final int SECONDS = 30;

  @TempDir private Path dir;

  private enum Ticks {
    AT_NOTES,
    BETWEEN_NOTES,
    ANYWHERE
  }

  private static void write(Path file, Ticks ticks) throws IOException {
    Random random = new Random(7);
    int frames = RATE * SECONDS;
    double[] v = new double[frames];
    for (int i = 0; i < frames; i++) {
      v[i] = 0.001 * random.nextGaussian();
    }
    for (int note = 0; note < 2 * (SECONDS - 2); note++) {
      int at = RATE + note * RATE / 2 + random.nextInt(2000);
      double pitch = 0.06 + 0.05 * random.nextDouble();
      for (int i = 0; i < RATE / 3 && at + i < frames; i++) {
        v[at + i] += 0.15 * Math.min(1, i / 200.0) * Math.exp(-i / 3000.0) * Math.sin(i * pitch);
      }
      int tick =
          switch (ticks) {
            case AT_NOTES -> at + random.nextInt(200);
            case BETWEEN_NOTES -> at + 5000 + random.nextInt(2000);
            case ANYWHERE -> RATE + random.nextInt(frames - 2 * RATE);
          };
      for (int i = 0; i < 8 && tick + i < frames; i++) {
        v[tick + i] += 0.7 * (i % 4 < 2 ? 1 : -1) * (1 - i / 8.0);
      }
    }
    ByteBuffer out = ByteBuffer.allocate(44 + 2 * frames).order(ByteOrder.LITTLE_ENDIAN);
    out.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 2 * frames);
    out.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16).putShort((short) 1);
    out.putShort((short) 1).putInt(RATE).putInt(2 * RATE).putShort((short) 2).putShort((short) 16);
    out.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(2 * frames);
    for (double x : v) {
      out.putShort((short) Math.round(32_767 * Math.max(-1, Math.min(1, x))));
    }
    Files.write(file, out.array());
  }

  @Test
  void repairsAtNotesAreToldFromRepairsElsewhere() throws IOException {
    Path shelf = Files.createDirectory(dir.resolve("shelf"));
    for (Ticks ticks : Ticks.values()) {
      write(shelf.resolve(ticks + ".wav"), ticks);
    }
    Path out = dir.resolve("out");
    CommandRun run = CommandRun.of("batch", shelf, "--out", out, "--stages", "clicks", "--no-page");
    assertThat(run.code()).as(run.err()).isZero();
    Map<String, JsonNode> sides = new HashMap<>();
    new ObjectMapper()
        .readTree(CommandRun.of("catalogue", out, "--json").out())
        .get("sides")
        .forEach(side -> sides.put(side.get("place").asText(), side));
    JsonNode at = sides.get("shelf/AT_NOTES.wav");
    JsonNode between = sides.get("shelf/BETWEEN_NOTES.wav");
    JsonNode anywhere = sides.get("shelf/ANYWHERE.wav");
    for (JsonNode side : sides.values()) {
      assertThat(side.get("onsets").asLong()).isBetween(40L, 70L);
      assertThat(side.get("edits").asLong()).isGreaterThan(30);
      // one channel: nothing to share out
      assertThat(side.get("edits_left_share").isNull()).isTrue();
    }
    assertThat(at.get("repairs_on_onsets").asDouble()).isGreaterThan(5);
    assertThat(at.get("repairs_on_onsets_z").asDouble()).isGreaterThan(10);
    assertThat(between.get("repairs_on_onsets").asDouble()).isLessThan(0.5);
    assertThat(anywhere.get("repairs_on_onsets_z").asDouble()).isBetween(-3.0, 3.0);
    Files.delete(out.resolve("overview.html"));
    run = CommandRun.of("overview", out, "--json");
    assertThat(run.code()).as(run.err()).isZero();
    JsonNode told = new ObjectMapper().readTree(run.out());
    assertThat(told.get("done").asInt()).isEqualTo(3);
    assertThat(told.get("hear").asInt()).isEqualTo(3);
    assertThat(out.resolve("overview.html")).isRegularFile();
  }
}
