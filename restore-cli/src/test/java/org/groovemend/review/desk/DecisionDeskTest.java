package org.groovemend.review.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Random;
import org.groovemend.chain.Progress;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.DecisionStore;
import org.groovemend.decisions.Verdict;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.review.InventedLedger;
import org.groovemend.review.side.ReviewSide;
import org.groovemend.sealed.SealedDocumentException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DecisionDeskTest {

  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-03-01T12:00:00Z"), ZoneOffset.UTC);

  @TempDir Path folder;
  private Path file;
  private Ledger ledger;
  private ReviewSide side;
  private DecisionDesk desk;

  @BeforeEach
  void open() throws Exception {
    ledger = Ledger.open(InventedLedger.write(folder, "side", 44_100, 60, 4));
    file = folder.resolve("side.decisions.json");
    side =
        ReviewSide.open(
            ledger.path(), new LedgerFiles(null, null, null), List.of(), Progress.SILENT);
    desk = new DecisionDesk(DecisionStore.open(file, ledger, "A. Tester"), side.edits(), CLOCK);
  }

  @AfterEach
  void close() throws IOException {
    desk.close();
    side.close();
  }

  private DecisionFile onDisk() throws IOException {
    return Files.exists(file) ? DecisionDocument.read(file) : desk.state().file();
  }

  /** Each mark is what the file of decisions itself says of the ledger's edit. */
  private void assertMarks() throws IOException {
    List<LedgerEdit> edits = new ArrayList<>();
    ledger.forEachEdit(edits::add);
    DecisionFile told = onDisk();
    byte[] marks = desk.marks();
    for (LedgerEdit edit : edits) {
      byte mark = marks[(int) edit.number() - 1];
      assertThat(Verdict.values()[mark & 3]).isEqualTo(told.verdictOf(edit));
      assertThat((mark & DecisionDesk.OWN) != 0)
          .isEqualTo(
              told.decisions().containsKey(edit.number())
                  && told.decisions().get(edit.number()).verdict() != null);
      assertThat((mark & DecisionDesk.COMMENT) != 0)
          .isEqualTo(
              told.decisions().containsKey(edit.number())
                  && !told.decisions().get(edit.number()).comment().isEmpty());
    }
  }

  @Test
  void anyOrderOfChangesAndStepsBackIsOnTheDiskAndInTheMarks() throws IOException {
    Random random = new Random(11);
    Deque<DecisionFile> before = new ArrayDeque<>();
    for (int k = 0; k < 400; k++) {
      DecisionFile now = onDisk();
      Verdict verdict = Verdict.values()[random.nextInt(3)];
      int act = random.nextInt(10);
      if (act < 4) {
        boolean comments = random.nextBoolean();
        desk.decide(
            1 + random.nextInt(60),
            comments && random.nextBoolean() ? null : verdict,
            comments ? "word " + k : null);
        before.push(now);
      } else if (act < 5 && !now.decisions().isEmpty()) {
        desk.forget(now.decisions().firstKey());
        before.push(now);
      } else if (act < 7) {
        Long from = random.nextBoolean() ? (long) random.nextInt(20_000) : null;
        desk.addRule(
            verdict,
            random.nextBoolean() ? "clicks" : null,
            random.nextBoolean() ? random.nextInt(2) : null,
            from,
            random.nextBoolean() ? 30_000L : null,
            random.nextBoolean() ? random.nextDouble() * 4 : null,
            "");
        before.push(now);
      } else if (act < 8 && !now.rules().isEmpty()) {
        desk.dropRule(random.nextInt(now.rules().size()));
        before.push(now);
      } else if (!before.isEmpty()) {
        desk.back();
        assertThat(onDisk()).isEqualTo(before.pop());
      }
      assertThat(onDisk()).isEqualTo(desk.state().file());
      assertMarks();
    }
  }

  @Test
  void aCommentAloneDecidesNothing() throws IOException {
    desk.decide(5, null, "a cymbal?");
    assertThat(onDisk().decisions().get(5L).verdict()).isNull();
    assertThat(desk.state().said()).isZero();
    // a rule made later still meets it
    desk.addRule(Verdict.UNDO, null, null, null, null, null, "");
    assertThat(desk.marks()[4])
        .isEqualTo((byte) (Verdict.UNDO.ordinal() | DecisionDesk.BY_RULE | DecisionDesk.COMMENT));
    desk.decide(5, Verdict.KEEP, null);
    assertThat(onDisk().decisions().get(5L).comment()).isEqualTo("a cymbal?");
    assertThat(onDisk().decisions().get(5L).verdict()).isEqualTo(Verdict.KEEP);
    assertMarks();
    desk.decide(6, null, "?");
    desk.decide(6, null, "");
    assertThat(onDisk().decisions()).doesNotContainKey(6L);
    assertMarks();
  }

  @Test
  void afterTheSignOffNothingChangesUntilItIsOpenAgain() throws IOException {
    desk.decide(1, Verdict.UNDO, null);
    desk.sign(" B. Listener ");
    assertThat(onDisk().signOff().by()).isEqualTo("B. Listener");
    assertThat(onDisk().signOff().atUtc()).isEqualTo("2026-03-01T12:00:00Z");
    byte[] bytes = Files.readAllBytes(file);
    assertThatThrownBy(() -> desk.decide(2, Verdict.UNDO, null))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("signed off by B. Listener");
    assertThatThrownBy(() -> desk.back()).isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> desk.sign("C")).isInstanceOf(IllegalStateException.class);
    assertThat(Files.readAllBytes(file)).isEqualTo(bytes);
    desk.reopen();
    desk.decide(2, Verdict.UNDO, null);
    assertThat(onDisk().decisions()).containsOnlyKeys(1L, 2L);
  }

  @Test
  void aFileThatWasChangedBehindTheDeskIsNotWrittenOver() throws IOException {
    desk.decide(1, Verdict.UNDO, null);
    byte[] bytes = Files.readAllBytes(file);
    bytes[20] ^= 1;
    Files.write(file, bytes);
    byte[] marks = desk.marks();
    assertThatThrownBy(() -> desk.decide(2, Verdict.UNDO, null))
        .isInstanceOf(SealedDocumentException.class);
    assertThat(Files.readAllBytes(file)).isEqualTo(bytes);
    assertThat(desk.marks()).isEqualTo(marks);
  }

  @Test
  void whatIsNotThereIsRefused() {
    assertThatThrownBy(() -> desk.decide(61, Verdict.UNDO, null))
        .hasMessageContaining("no edit 61");
    assertThatThrownBy(() -> desk.forget(3)).isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> desk.back()).isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> desk.dropRule(0)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> desk.sign("  ")).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> desk.addRule(Verdict.UNDO, "curve", null, null, null, null, ""))
        .hasMessageContaining("no edit is of a stage curve");
    assertThat(Files.exists(file)).isFalse();
  }
}
