package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Laws over seeded random sides; a failure names its seed. */
class ReversalPropertyTest {

  private static final int SIDES = 1000;

  @TempDir Path folder;

  @Test
  void anyTreatedSideIsRevertedByteForByte() throws Exception {
    Path ledger = folder.resolve("side.ledger.jsonl");
    int whole = 0;
    int withEdits = 0;
    for (long seed = 1; seed <= SIDES; seed++) {
      TreatedSide side = new TreatedSide(seed);
      Files.write(ledger, side.ledger());
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      FileFacts facts =
          new Reversal(PlainRebuilder::new)
              .revert(
                  ledger, side.restoredSide(), side.wholeSignal ? side.removedSide() : null, out);
      assertThat(out.toByteArray()).as("seed %d", seed).isEqualTo(side.file);
      assertThat(facts).isEqualTo(side.originalFacts);
      whole += side.wholeSignal ? 1 : 0;
      withEdits += side.edits.isEmpty() ? 0 : 1;
    }
    // the generator draws what it should
    assertThat(whole).isBetween(SIDES / 3, 2 * SIDES / 3);
    assertThat(withEdits).isGreaterThan(SIDES / 2);
  }

  @Test
  void oneChangedSampleOfTheRestoredFileIsRefusedBeforeAnythingIsWritten() throws Exception {
    Path ledger = folder.resolve("side.ledger.jsonl");
    for (long seed = 1; seed <= 50; seed++) {
      TreatedSide side = new TreatedSide(seed);
      if (side.restored[0].length == 0) {
        continue;
      }
      Files.write(ledger, side.ledger());
      side.restored[0][side.restored[0].length / 2] ^= 1;
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      assertThatThrownBy(
              () ->
                  new Reversal(PlainRebuilder::new)
                      .revert(ledger, side.restoredSide(), side.removedSide(), out))
          .as("seed %d", seed)
          .isInstanceOf(VerificationException.class)
          .hasMessageContaining("restored file side.restored.wav");
      assertThat(out.size()).isZero();
    }
  }

  @Test
  void oneChangedSampleOfTheRemovedFileIsRefusedBeforeAnythingIsWritten() throws Exception {
    Path ledger = folder.resolve("side.ledger.jsonl");
    int tried = 0;
    for (long seed = 1; seed <= 50; seed++) {
      TreatedSide side = new TreatedSide(seed);
      if (!side.wholeSignal || side.removed[0].length == 0) {
        continue;
      }
      tried++;
      Files.write(ledger, side.ledger());
      side.removed[0][0] ^= 1;
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      assertThatThrownBy(
              () ->
                  new Reversal(PlainRebuilder::new)
                      .revert(ledger, side.restoredSide(), side.removedSide(), out))
          .as("seed %d", seed)
          .isInstanceOf(VerificationException.class)
          .hasMessageContaining("removed file side.removed.flac");
      assertThat(out.size()).isZero();
    }
    assertThat(tried).isGreaterThan(10);
  }

  @Test
  void everyRecordIsReadAsItWasWritten() throws Exception {
    for (long seed = 1; seed <= 100; seed++) {
      TreatedSide side = new TreatedSide(seed);
      Path ledger = Files.write(folder.resolve("side.ledger.jsonl"), side.ledger());
      Ledger read = Ledger.open(ledger);
      assertThat(read.header()).as("seed %d", seed).isEqualTo(side.header());
      assertThat(read.totals()).isEqualTo(side.totals());
      List<LedgerEdit> edits = new ArrayList<>();
      read.forEachEdit(edits::add);
      assertThat(edits).isEqualTo(side.edits);
    }
  }
}
