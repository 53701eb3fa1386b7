package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class UndoCommandTest {

  @TempDir Path folder;
  private Path ledger;
  private long edits;

  @BeforeEach
  void restore() throws IOException {
    Path side = folder.resolve("side.wav");
    SmallSide.write(side, 1);
    CommandRun run =
        CommandRun.of(
            "restore", side, "--stages", "clicks", "--captured", "flat", "--no-clips", "--quiet");
    assertEquals(0, run.code(), run.err());
    ledger = folder.resolve("side.ledger.jsonl");
    edits = CommandRun.of("edits", ledger, "--csv").out().lines().count() - 1;
    assertTrue(edits > 4, "edits: " + edits);
  }

  @Test
  void anEditIsTakenBackAndTheDescentHolds() {
    CommandRun run =
        CommandRun.of("undo", ledger, "--edit", "2", "--why", "castanet", "--by", "Ada", "--quiet");
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().startsWith("1 of " + edits + " edits taken back"), run.out());
    Path child = folder.resolve("side.undo-1.ledger.jsonl");
    CommandRun verify = CommandRun.of("verify", child);
    assertEquals(0, verify.code(), verify.out());
    assertTrue(verify.out().contains("descends from side.ledger.jsonl"), verify.out());
    Path back = folder.resolve("back.wav");
    assertEquals(0, CommandRun.of("revert", child, "--out", back).code());
    assertEquals(-1, mismatch(back, folder.resolve("side.wav")));
  }

  private static long mismatch(Path a, Path b) {
    try {
      return Files.mismatch(a, b);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void aWrittenFileOfDecisionsDoesTheSameAgain() throws IOException {
    assertEquals(0, CommandRun.of("undo", ledger, "--edit", "1,3-4", "--quiet").code());
    CommandRun run =
        CommandRun.of(
            "undo",
            ledger,
            "--decisions",
            folder.resolve("side.undo-1.decisions.json"),
            "--out",
            folder.resolve("again"),
            "--json");
    assertEquals(0, run.code(), run.err());
    JsonNode told = new ObjectMapper().readTree(run.out());
    assertEquals(3, told.get("undone").asLong());
    assertFalse(told.get("runAgain").asBoolean());
    assertEquals(3, told.get("undoneByStage").get("clicks").asLong());
    Path again = Path.of(told.get("files").get("ledger").asText());
    assertEquals(told.get("seal").asText().length(), 64);
    // the parent lies where the new ledger says
    CommandRun verify = CommandRun.of("verify", again);
    assertTrue(verify.out().contains("The ledger descends from side.ledger.jsonl"), verify.out());
    // it does not any more: said so, and found where it is said to be
    Path away = Files.createDirectories(folder.resolve("far/away")).resolve("again");
    Files.move(again.getParent(), away);
    again = away.resolve(again.getFileName());
    verify = CommandRun.of("verify", again);
    assertTrue(verify.out().contains("not checked parent-ledger"), verify.out());
    verify = CommandRun.of("verify", again, "--parent", folder);
    assertTrue(verify.out().contains("The ledger descends from side.ledger.jsonl"), verify.out());
    // another ledger in its place
    Path other = Files.copy(again, folder.resolve("far/other.ledger.jsonl"));
    verify = CommandRun.of("verify", again, "--parent", other);
    assertEquals(5, verify.code(), verify.out());
    assertTrue(verify.out().contains("The parent side.ledger.jsonl is not the one"), verify.out());
  }

  @Test
  void aDryRunTellsAndWritesNothing() throws IOException {
    CommandRun run = CommandRun.of("undo", ledger, "--channel", "left", "--dry-run");
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("edits would be taken back"), run.out());
    assertTrue(run.out().endsWith("Nothing was written." + System.lineSeparator()), run.out());
    assertFalse(Files.exists(folder.resolve("side.undo-1.ledger.jsonl")));
    run = CommandRun.of("undo", ledger, "--below", "1e9", "--dry-run", "--json");
    JsonNode told = new ObjectMapper().readTree(run.out());
    assertEquals(edits, told.get("undone").asLong());
    assertTrue(told.get("dryRun").asBoolean());
  }

  private void refused(int code, String words, Object... options) {
    Object[] all = new Object[options.length + 2];
    all[0] = "undo";
    all[1] = ledger;
    System.arraycopy(options, 0, all, 2, options.length);
    CommandRun run = CommandRun.of(all);
    assertEquals(code, run.code(), run.err());
    assertTrue(run.err().contains(words), run.err());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertFalse(Files.exists(folder.resolve("side.undo-1.ledger.jsonl")));
  }

  @Test
  void whatCannotBeGetsOneSentence() {
    refused(2, "say which edits");
    refused(2, "nothing to take back", "--range", "0-0.001");
    refused(2, "there is no edit 999", "--edit", "999");
    refused(2, "no number of an edit", "--edit", "two");
    refused(2, "not one number, nor two", "--edit", "1-2-3");
    refused(2, "they count from 1", "--edit", "0");
    refused(2, "neither left nor right", "--channel", "middle");
    refused(2, "not two times such as", "--range", "1:75-2:00");
    refused(2, "not two times such as", "--range", "3");
    refused(2, "the earlier first", "--range", "3-2");
    refused(2, "no number", "--below", "NaN");
    refused(2, "the ledger has no stage noise; it has clicks", "--stage", "noise");
    refused(2, "leave out the other options", "--edit", "1", "--decisions", "x.json");
    refused(4, "there is no such file", "--decisions", folder.resolve("x.json"));
    refused(5, "cannot be read as JSON", "--decisions", ledger);
  }

  @Test
  void anOtherRangeIsMinutesAndSeconds() {
    CommandRun run = CommandRun.of("undo", ledger, "--range", "0:01.1-0:01.3", "--quiet");
    assertEquals(0, run.code(), run.err());
    run = CommandRun.of("undo", ledger, "--range", "1.1-1.3", "--quiet");
    assertEquals(6, run.code(), run.err());
    run = CommandRun.of("undo", ledger, "--range", "1.1-1.3", "--quiet", "--replace");
    assertEquals(0, run.code(), run.err());
  }

  @Test
  void aMissingOrForeignCopyIsNamed() throws IOException {
    Path restored = folder.resolve("side.restored.wav");
    byte[] good = Files.readAllBytes(restored);
    Files.delete(restored);
    refused(5, "side.restored.wav is not beside the ledger", "--edit", "1");
    Path other = folder.resolve("other.wav");
    SmallSide.write(other, 2);
    refused(5, "or was altered", "--edit", "1", "--restored", other, "--quiet");
    Files.write(restored, java.util.Arrays.copyOf(good, 1000));
    refused(5, "one that cannot be read", "--edit", "1", "--quiet");
  }
}
