package org.groovemend.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicInteger;
import org.groovemend.chain.Progress;
import org.groovemend.fixity.FixityOutcome;
import org.groovemend.fixity.FixityRun;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class VerifyStoreTest {

  private static final int FRAMES = 75_000;

  @TempDir private Path dir;
  private Path shelf;
  private Path store;
  private Path record;

  @BeforeEach
  void aStore() throws IOException {
    shelf = Files.createDirectories(dir.resolve("shelf/box"));
    store = dir.resolve("cleaned");
    record = dir.resolve("cleaned.fixity.jsonl");
    for (int i = 1; i <= 4; i++) {
      SmallSide.write(shelf.resolve("side " + i + ".wav"), i, FRAMES);
    }
    CommandRun run =
        CommandRun.of(
            "batch", shelf.getParent(), "--out", store, "--stages", "clicks,noise", "--no-page");
    assertThat(run.code()).as(run.err()).isZero();
  }

  private Path result(String name) {
    return store.resolve("sides/shelf/box").resolve(name);
  }

  private Map<String, String> findings() throws IOException {
    CommandRun run = CommandRun.of("verify", "--all", store, "--json");
    JsonNode told = new ObjectMapper().readTree(run.out());
    assertThat(run.code())
        .isEqualTo(told.get("faults").asLong() > 0 ? ExitCode.VERIFICATION_FAILED : ExitCode.DONE);
    Map<String, String> findings = new TreeMap<>();
    told.get("findings").forEach(f -> findings.put(f.get("file").asText(), f.get("kind").asText()));
    return findings;
  }

  private static void flip(Path file, long at) throws IOException {
    try (RandomAccessFile bytes = new RandomAccessFile(file.toFile(), "rw")) {
      bytes.seek(at);
      int b = bytes.read();
      bytes.seek(at);
      bytes.write(b ^ 1);
    }
  }

  @Test
  void anUntouchedStoreHoldsAndIsNotDisturbed() throws IOException {
    Map<String, String> before = BatchCommandTest.digests(dir);
    CommandRun run = CommandRun.of("verify", "--all", store, "--thorough");
    assertThat(run.code()).as(run.out() + run.err()).isZero();
    // a ledger, copy, removed signal and transfer for each of four sides
    assertThat(run.out())
        .contains("4 checked, 16 files")
        .contains("Everything that is vouched for is there and unchanged.");
    Map<String, String> after = BatchCommandTest.digests(dir);
    assertThat(after.remove("cleaned.fixity.jsonl")).isNotNull();
    assertThat(after).isEqualTo(before);
    assertThat(Files.readAllLines(record)).hasSize(6);
  }

  @Test
  void eachChangeIsNamed() throws IOException {
    flip(result("side 1.restored.wav"), 100_000);
    flip(result("side 2.ledger.jsonl"), 3000);
    Files.delete(result("side 3.removed.flac"));
    Files.delete(result("side 4.ledger.jsonl"));
    flip(shelf.resolve("side 1.wav"), 200_000);
    Files.writeString(result("stranger.txt"), "who am I?");
    Files.writeString(shelf.resolve("side 3.wav"), "shorter", StandardOpenOption.APPEND);
    Map<String, String> findings = findings();
    String at = "sides/shelf/box/";
    assertThat(findings)
        .containsEntry(at + "side 1.restored.wav", "CHANGED")
        .containsEntry(at + "side 2.ledger.jsonl", "DAMAGED")
        .containsEntry(at + "side 3.removed.flac", "MISSING")
        .containsEntry(at + "side 4.ledger.jsonl", "MISSING")
        .containsEntry(shelf.resolve("side 1.wav").toString(), "CHANGED")
        .containsEntry(shelf.resolve("side 3.wav").toString(), "CHANGED")
        .containsEntry(at + "stranger.txt", "UNEXPECTED")
        // without their ledger nothing vouches for them
        .containsEntry(at + "side 4.restored.wav", "UNEXPECTED")
        .containsEntry(at + "side 4.removed.flac", "UNEXPECTED")
        .hasSize(9);
    CommandRun table = CommandRun.of("verify", "--all", store, "--csv");
    assertThat(table.out()).startsWith("kind,file,what\r\n").contains("missing,sides/shelf/box/");
    assertThat(table.code()).isEqualTo(ExitCode.VERIFICATION_FAILED);
  }

  @Test
  void aTransferThatIsGoneIsMissing() throws IOException {
    Files.delete(shelf.resolve("side 2.wav"));
    assertThat(findings())
        .containsExactly(Map.entry(shelf.resolve("side 2.wav").toString(), "MISSING"));
  }

  @Test
  void onlyUnexpectedFilesAreNoFault() throws IOException {
    Files.writeString(result("notes.txt"), "a note");
    CommandRun run = CommandRun.of("verify", "--all", store);
    assertThat(run.code()).isZero();
    assertThat(run.out()).contains("unexpected").contains("notes.txt");
  }

  @Test
  void aRecordThatAnotherRoundWritesIsLeftAlone() throws IOException {
    try (RandomAccessFile held = new RandomAccessFile(record.toFile(), "rw");
        FileLock lock = held.getChannel().lock()) {
      CommandRun run = CommandRun.of("verify", "--all", store);
      assertThat(run.code()).isNotZero();
      assertThat(run.err()).contains("another verification is writing this record").hasLineCount(1);
      assertThat(lock.isValid()).isTrue();
      assertThat(held.length()).isZero();
    }
    assertThat(CommandRun.of("verify", "--all", store).code()).isZero();
  }

  @Test
  void aRoundThatWasStoppedGoesOn() throws IOException {
    FixityRun.Wish wish = new FixityRun.Wish(store, record, false, 1);
    AtomicInteger asked = new AtomicInteger();
    FixityOutcome first =
        FixityRun.run(wish, Clock.systemUTC(), () -> asked.incrementAndGet() > 40, Progress.SILENT);
    assertThat(first.interrupted()).isTrue();
    assertThat(first.checked()).isBetween(1L, 3L);
    // what a process leaves that is killed while it writes a line
    Files.writeString(record, "{\"key\":\"sides/she", StandardOpenOption.APPEND);
    FixityOutcome second = FixityRun.run(wish, Clock.systemUTC(), () -> false, Progress.SILENT);
    assertThat(second.before()).isEqualTo(first.checked());
    assertThat(second.checked()).isEqualTo(4 - first.checked());
    assertThat(second.holds()).isTrue();
    FixityOutcome third = FixityRun.run(wish, Clock.systemUTC(), () -> false, Progress.SILENT);
    assertThat(third.before()).isZero();
    assertThat(third.checked()).isEqualTo(4);
    ObjectMapper mapper = new ObjectMapper();
    for (String line : Files.readAllLines(record, StandardCharsets.UTF_8)) {
      assertThat(mapper.readTree(line).isObject()).isTrue();
    }
  }

  @Test
  void whatDidNotHoldIsLookedAtAgainWhenARoundGoesOn() throws IOException {
    flip(result("side 1.restored.wav"), 100_000);
    assertThat(findings()).hasSize(1);
    // as if it had been killed just before its end
    String lines = Files.readString(record);
    int end = lines.lastIndexOf("{\"ended\"");
    Files.writeString(record, lines.substring(0, end));
    flip(result("side 1.restored.wav"), 100_000);
    CommandRun run = CommandRun.of("verify", "--all", store);
    assertThat(run.code()).as(run.out()).isZero();
    assertThat(run.out()).contains("1 checked (3 before)");
  }

  @Test
  void bagsAreCheckedFileByFile() throws IOException {
    CommandRun made =
        CommandRun.of(
            "records",
            result("side 1.ledger.jsonl"),
            "--original",
            shelf.resolve("side 1.wav"),
            "--out",
            store.resolve("handed/side 1"),
            "--bag");
    assertThat(made.code()).as(made.err()).isZero();
    assertThat(findings()).isEmpty();
    flip(store.resolve("handed/side 1/data/side 1.restored.wav"), 100_000);
    Files.writeString(store.resolve("handed/side 1/data/more.txt"), "more");
    Files.delete(store.resolve("handed/side 1/data/side 1.ledger.jsonl"));
    Map<String, String> findings = findings();
    assertThat(findings)
        .containsEntry("handed/side 1/data/side 1.restored.wav", "CHANGED")
        .containsEntry("handed/side 1/data/more.txt", "CHANGED")
        .containsEntry("handed/side 1/data/side 1.ledger.jsonl", "MISSING");
  }

  @Test
  void aRecordOfSomethingElseIsLeftAlone() throws IOException {
    Files.writeString(record, "my diary\n");
    CommandRun run = CommandRun.of("verify", "--all", store);
    assertThat(run.code()).isEqualTo(ExitCode.UNEXPECTED);
    assertThat(run.err()).contains("is no record of a verification").contains("--record");
    assertThat(record).hasContent("my diary\n");
    Path other = dir.resolve("other.jsonl");
    assertThat(CommandRun.of("verify", "--all", shelf, "--record", other).code()).isZero();
    assertThatThrownBy(
            () ->
                FixityRun.run(
                    new FixityRun.Wish(store, other, false, 1),
                    Clock.systemUTC(),
                    () -> false,
                    Progress.SILENT))
        .hasMessageContaining("is the record of");
  }

  @Test
  void optionsThatMeanOneLedgerAreRefused() {
    assertThat(CommandRun.of("verify", "--all", store, "--original", shelf).code())
        .isEqualTo(ExitCode.USAGE);
    assertThat(CommandRun.of("verify", result("side 1.ledger.jsonl"), "--csv").code())
        .isEqualTo(ExitCode.USAGE);
    assertThat(CommandRun.of("verify", "--all", store.resolve("nowhere")).code())
        .isEqualTo(ExitCode.INPUT_REFUSED);
  }
}
