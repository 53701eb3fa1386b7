package org.groovemend.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.groovemend.review.InventedLedger;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What cannot be reviewed is told in one sentence before any page is opened. */
@Timeout(value = 5, unit = TimeUnit.MINUTES, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class ReviewCommandTest {

  @TempDir static Path made;
  private static Path ledgerMade;

  @TempDir Path folder;
  private Path ledger;
  private Path restored;

  @BeforeAll
  static void make() throws IOException {
    ledgerMade = InventedLedger.write(made, "side", 44_100, 30, 1);
    InventedLedger.write(made, "other", 44_100, 30, 8);
  }

  @BeforeEach
  void copy() throws IOException {
    ledger = Files.copy(ledgerMade, folder.resolve("side.ledger.jsonl"));
    restored = Files.copy(made.resolve("side.restored.wav"), folder.resolve("side.restored.wav"));
  }

  private static void assertRefused(CommandRun run, int code, String... parts) {
    assertThat(run.code()).as(run.err()).isEqualTo(code);
    assertThat(run.err().strip().lines()).as(run.err()).hasSize(1);
    assertThat(run.err()).startsWith("groovemend: ").contains(parts).doesNotContain("Exception");
    assertThat(run.out()).isEmpty();
  }

  private CommandRun review(Object... more) {
    Object[] all = new Object[more.length + 3];
    all[0] = "review";
    all[1] = ledger;
    all[2] = "--no-browser";
    System.arraycopy(more, 0, all, 3, more.length);
    return CommandRun.of(all);
  }

  @Test
  void filesOfAnotherSideAreRefused() throws IOException {
    assertRefused(
        review("--restored", made.resolve("other.restored.wav")),
        5,
        "The clean copy is not the one of this ledger");
    assertRefused(
        review("--original", made.resolve("other.wav")),
        5,
        "The transfer is not the one of this ledger");
    Path shorter = folder.resolve("shorter");
    Files.createDirectory(shorter);
    InventedLedger.write(shorter, "side", 22_050, 3, 1);
    assertRefused(
        review("--restored", shorter.resolve("side.restored.wav")),
        5,
        "is not the clean copy of this ledger",
        "22050 frames",
        "--restored");
    assertRefused(review("--restored", ledger), 4, "side.ledger.jsonl");
    assertNothingLeft();
  }

  @Test
  void missingFilesAreNamed() throws IOException {
    Files.delete(restored);
    assertRefused(review(), 5, "side.restored.wav is not beside the ledger", "--restored");
    assertRefused(review("--restored", folder.resolve("no.wav")), 4, "no.wav", "no such file");
    assertRefused(
        CommandRun.of("review", folder.resolve("no.ledger.jsonl"), "--no-browser"),
        4,
        "no such file");
    assertRefused(CommandRun.of("review", folder, "--no-browser"), 4, "it is a folder");
  }

  @Test
  void withoutWhatWasRemovedAWholeSignalNeedsTheTransfer() throws IOException {
    Path side = folder.resolve("music.wav");
    SmallSide.write(side, 1);
    CommandRun restored =
        CommandRun.of(
            "restore", side, "--captured", "flat", "--out", folder.resolve("c"), "--quiet");
    assertThat(restored.code()).as(restored.err()).isZero();
    Path music = folder.resolve("c/music.ledger.jsonl");
    Files.delete(folder.resolve("c/music.removed.flac"));
    assertRefused(
        CommandRun.of("review", music, "--no-browser"),
        5,
        "Neither music.removed.flac nor the transfer music.wav",
        "--original");
  }

  @Test
  void aLedgerThatIsNewerHalfWrittenOrAlteredIsRefused() throws IOException {
    byte[] whole = Files.readAllBytes(ledger);
    Files.write(ledger, java.util.Arrays.copyOf(whole, whole.length / 2));
    assertRefused(review(), 5, "of the ledger", "line");
    String text = new String(whole, StandardCharsets.UTF_8);
    String later = text.replaceFirst("\"version\":\\d", "\"version\":9");
    assertThat(later).isNotEqualTo(text);
    Files.writeString(ledger, later);
    assertRefused(review(), 4, "version 9");
    Files.writeString(ledger, text.replaceFirst("\"lsar\"", "\"lsaR\""));
    assertRefused(review(), 5, "line");
    Files.writeString(ledger, "no ledger at all");
    assertRefused(review(), 5, "line 1");
    assertNothingLeft();
  }

  @Test
  void decisionsThatAreAlteredOrOfAnotherLedgerAreRefusedAndLeftAlone() throws IOException {
    Path file = folder.resolve("side.decisions.json");
    for (String content : new String[] {"", "{}", "{\"format\":\"groovemend-decisions\"}\n"}) {
      Files.writeString(file, content);
      assertRefused(review(), 5, "side.decisions.json");
      assertThat(Files.readString(file)).isEqualTo(content);
    }
  }

  @Test
  void placesAndPortsThatCannotBeAreRefused() {
    assertRefused(review("--decisions", folder), 2, "is a folder");
    assertRefused(review("--decisions", folder.resolve("no/d.json")), 2, "there is no folder");
    assertRefused(review("--decisions", restored.resolve("d.json")), 2, "is a file");
    assertRefused(review("--port", 80), 2, "--port 80");
    assertRefused(review("--port", 70_000), 2, "--port 70000");
  }

  @Test
  void aPortInUseIsTold() throws IOException {
    try (var taken = new java.net.ServerSocket(0, 1, java.net.InetAddress.getByName("127.0.0.1"))) {
      assertRefused(review("--port", taken.getLocalPort()), 2, "in use by another program");
    }
    assertNothingLeft();
  }

  /** No lock, no scratch file, no half of anything. */
  private void assertNothingLeft() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files.map(f -> f.getFileName().toString()).filter(n -> n.contains("decisions")))
          .isEmpty();
    }
  }

  @Test
  void wordsOfACommandLineAreQuotedWhereAShellNeedsIt() {
    assertThat(Shell.word("cleaned/side.ledger.jsonl")).isEqualTo("cleaned/side.ledger.jsonl");
    assertThat(Shell.word("my side's.jsonl")).isEqualTo("'my side'\\''s.jsonl'");
    assertThat(Shell.word("$HOME")).isEqualTo("'$HOME'");
  }
}
