package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class AuditCommandTest {
  @TempDir private static Path dir;
  private static Path side;
  private static Path copy;

  @BeforeAll
  static void restore() throws IOException {
    side = dir.resolve("side.wav");
    SmallSide.write(side, 3);
    CommandRun run =
        CommandRun.of(
            "restore", side, "--stages", "clicks", "--out", dir.resolve("out"), "--quiet");
    assertEquals(0, run.code(), run.err());
    copy = dir.resolve("out/side.restored.wav");
  }

  @Test
  void theLedgerBesideTheCopyExplainsIt() throws IOException {
    CommandRun run = CommandRun.of("audit", side, copy, "--json");
    assertEquals(0, run.code(), run.err());
    JsonNode result = new ObjectMapper().readTree(run.out());
    assertEquals("EXPLAINED", result.get("verdict").asText());
    assertEquals("side.ledger.jsonl", result.get("ledger").asText());
    assertEquals(0, result.get("words").get("unexplained").asLong());
    CommandRun words = CommandRun.of("audit", side, copy);
    assertTrue(words.out().contains("is explained by the ledger."), words.out());
  }

  @Test
  void whatIsNotExplainedEndsWithFive() throws IOException {
    Path folder = Files.createDirectory(dir.resolve("tampered"));
    Path other = folder.resolve("side.restored.wav");
    byte[] bytes = Files.readAllBytes(copy);
    bytes[bytes.length - 6] ^= 1;
    Files.write(other, bytes);
    CommandRun run =
        CommandRun.of("audit", side, other, "--ledger", dir.resolve("out/side.ledger.jsonl"));
    assertEquals(ExitCode.VERIFICATION_FAILED, run.code(), run.out() + run.err());
    assertTrue(run.out().contains("1 sample in 1 place is not explained"), run.out());
    // without the ledger it is a finding, no failure
    CommandRun measured = CommandRun.of("audit", side, other, "--without-ledger", "--json");
    assertEquals(0, measured.code(), measured.err());
    JsonNode result = new ObjectMapper().readTree(measured.out());
    assertEquals("MEASURED", result.get("verdict").asText());
    assertTrue(result.get("findings").size() > 0, measured.out());
  }

  @Test
  void identicalFilesAndUsage() throws IOException {
    CommandRun same = CommandRun.of("audit", side, side);
    assertEquals(0, same.code(), same.err());
    assertTrue(same.out().contains("Identical: both files have the same SHA-256."), same.out());
    CommandRun contrary =
        CommandRun.of("audit", side, copy, "--without-ledger", "--ledger", "x.jsonl");
    assertEquals(ExitCode.USAGE, contrary.code());
    CommandRun missing = CommandRun.of("audit", side, dir.resolve("none.wav"));
    assertEquals(ExitCode.INPUT_REFUSED, missing.code());
    assertEquals(1, missing.err().strip().lines().count(), missing.err());
  }

  @Test
  void aPageIsWrittenAndNotWrittenOver() throws IOException {
    Path page = dir.resolve("audit.html");
    CommandRun run = CommandRun.of("audit", side, copy, "--page", page);
    assertEquals(0, run.code(), run.err());
    String html = Files.readString(page);
    assertFalse(html.contains("http://") || html.contains("https://"), "an address in the page");
    assertEquals(ExitCode.OUTPUT_EXISTS, CommandRun.of("audit", side, copy, "--page", page).code());
    assertEquals(0, CommandRun.of("audit", side, copy, "--page", page, "--replace").code());
    CommandRun over = CommandRun.of("audit", side, copy, "--page", side, "--replace");
    assertEquals(ExitCode.USAGE, over.code(), over.err());
  }
}
