package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.groovemend.bag.BagWriter;
import org.groovemend.bag.DigestAlgorithm;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class BagCommandTest {

  @TempDir private Path dir;
  private Path bag;

  @BeforeEach
  void pack() throws IOException {
    bag = dir.resolve("side");
    try (BagWriter writer = BagWriter.open(bag, false, List.of(), Set.of(DigestAlgorithm.SHA256))) {
      Files.writeString(writer.payload("side.wav"), "sound");
      writer.commit(LocalDate.of(2026, 1, 2), n -> {});
    }
  }

  @Test
  void aValidBagIsSaidToBe() {
    CommandRun run = CommandRun.of("bag", bag);
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("valid: complete, and every checksum holds (1 files, 5 bytes)"));
    CommandRun quick = CommandRun.of("bag", bag, "--quick");
    assertEquals(0, quick.code());
    assertTrue(quick.out().contains("checksums were not looked at"), quick.out());
  }

  @Test
  void everyFaultIsToldAndGivesCodeFive() throws IOException {
    Files.writeString(bag.resolve("data/side.wav"), "Sound");
    CommandRun changed = CommandRun.of("bag", bag);
    assertEquals(5, changed.code());
    assertTrue(changed.out().contains("changed      data/side.wav was changed"), changed.out());
    assertTrue(changed.out().contains("complete, but NOT VALID"), changed.out());
    assertEquals(0, CommandRun.of("bag", bag, "--quick").code());
    Files.delete(bag.resolve("data/side.wav"));
    Files.writeString(bag.resolve("data/other.wav"), "sound");
    CommandRun missing = CommandRun.of("bag", bag, "--quick");
    assertEquals(5, missing.code());
    assertTrue(missing.out().contains("\nextra        data/other.wav"), missing.out());
    assertTrue(missing.out().contains("NOT COMPLETE"), missing.out());
  }

  @Test
  void machinesGetTheSame() throws IOException {
    Files.writeString(bag.resolve("data/side.wav"), "Sound");
    JsonNode told = new ObjectMapper().readTree(CommandRun.of("bag", bag, "--json").out());
    assertEquals(1, told.get("bag").asInt());
    assertTrue(told.get("complete").asBoolean());
    assertFalse(told.get("valid").asBoolean());
    assertEquals("CHANGED", told.get("findings").get(0).get("kind").asText());
    JsonNode quick =
        new ObjectMapper().readTree(CommandRun.of("bag", bag, "--json", "--quick").out());
    assertTrue(quick.get("valid").isNull());
  }

  @Test
  void whatIsNotThereIsRefused() {
    CommandRun run = CommandRun.of("bag", dir.resolve("none"));
    assertEquals(4, run.code());
    assertTrue(run.err().contains("there is no such folder; name the folder that holds bagit.txt"));
  }
}
