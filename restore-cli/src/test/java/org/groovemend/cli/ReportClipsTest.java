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
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class ReportClipsTest {

  @TempDir private Path dir;

  private JsonNode restore(Object... more) throws IOException {
    Path side = dir.resolve("side.wav");
    SmallSide.write(side, 2);
    Object[] args = {"restore", side, "--out", dir, "--replace", "--stages", "noise", "--json"};
    Object[] all = Arrays.copyOf(args, args.length + more.length);
    System.arraycopy(more, 0, all, args.length, more.length);
    CommandRun run = CommandRun.of(all);
    assertEquals(0, run.code(), run.err());
    return new ObjectMapper().readTree(run.out()).get("sides").get(0);
  }

  @Test
  void clipsAreThereUnlessLeftOut() throws IOException {
    JsonNode with = restore("--lead-in", "0-1");
    String page = Files.readString(dir.resolve("side.report.html"));
    assertTrue(page.contains("<audio"));
    JsonNode without = restore("--lead-in", "0-1", "--no-clips");
    String small = Files.readString(dir.resolve("side.report.html"));
    assertFalse(small.contains("<audio"));
    assertTrue(small.contains("Clips to listen to were left out, as asked."));
    assertTrue(small.length() < page.length());
    assertEquals(with.get("listening"), without.get("listening"));
  }

  @Test
  void figuresAreThereForMachines() throws IOException {
    JsonNode side = restore("--lead-in", "0-1");
    JsonNode floor = side.get("noiseFloor");
    assertEquals("lead-in", floor.get("place").asText());
    double before = floor.get("before").get("channels").get(0).get("dbfsAWeighted").asDouble();
    double after = floor.get("after").get("channels").get(0).get("dbfsAWeighted").asDouble();
    assertTrue(after < before - 2, before + " to " + after + " dB(A)");
    JsonNode kept = side.get("keptMusic");
    assertEquals(2, kept.size());
    // the tones begin at once after a second
    assertEquals(1, kept.get(0).get("onsets").get("count").asInt());
    assertEquals(0, kept.get(0).get("onsets").get("medianDb").asDouble(), 0.5);
    // no decay: nothing to say is null, not zero
    assertTrue(kept.get(0).get("decays").get("medianDb").isNull());
    assertEquals("QUIETEST", side.get("listening").get(0).get("kind").asText());
  }
}
