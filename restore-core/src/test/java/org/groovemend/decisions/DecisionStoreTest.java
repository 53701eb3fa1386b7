package org.groovemend.decisions;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.Sha256;
import org.groovemend.sealed.CanonicalJson;
import org.groovemend.sealed.SealedDocument;
import org.groovemend.sealed.SealedDocumentException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class DecisionStoreTest {

  private static final String AT = "2026-03-01T12:00:00Z";
  private static final Decision UNDO_1 = new Decision(1, Verdict.UNDO, "a drum, Käthe says", AT);

  @TempDir private Path folder;
  private Ledger ledger;
  private Path file;

  @BeforeEach
  void ledger() throws IOException {
    ledger = copy("repairs");
    file = folder.resolve(DecisionDocument.nameBeside("side.ledger.jsonl"));
  }

  private Ledger copy(String side) throws IOException {
    Path to = folder.resolve("side.ledger.jsonl");
    try (InputStream in =
        getClass().getResourceAsStream("/fixtures/ledger/v1/" + side + "/side.ledger.jsonl")) {
      Files.write(to, in.readAllBytes());
    }
    return Ledger.open(to);
  }

  private DecisionFile full() {
    return DecisionFile.empty(LedgerName.of(ledger), "R. Iverdal")
        .with(UNDO_1)
        .with(new Decision(2, Verdict.ASK, "", AT))
        .with(new Decision(3, null, "listened, not sure", AT))
        .with(new Rule(Verdict.UNDO, "clicks", 0, 3L, 20L, 0.5, "too many", AT))
        .with(new Rule(Verdict.KEEP, null, null, null, null, null, "", AT))
        .signed(new SignOff("R. Iverdal", AT));
  }

  @Test
  void whatIsDecidedIsThereWhenOpenedAgain() throws IOException {
    try (DecisionStore store = DecisionStore.open(file, ledger, "R. Iverdal")) {
      assertThat(file).doesNotExist();
      store.change(all -> full());
      assertThat(DecisionDocument.read(file)).isEqualTo(full());
    }
    try (DecisionStore store = DecisionStore.open(file, ledger, "somebody else")) {
      assertThat(store.decisions()).isEqualTo(full());
    }
    assertThat(Files.list(folder)).hasSize(2);
  }

  @Test
  void twoReviewersAtOnceAreOneTooMany() throws IOException {
    try (DecisionStore store = DecisionStore.open(file, ledger, "a")) {
      store.change(all -> all.with(UNDO_1));
      assertThatThrownBy(() -> DecisionStore.open(file, ledger, "b"))
          .isInstanceOf(DecisionsTakenException.class)
          .hasMessageContaining("open in another review");
      store.change(all -> all.without(1));
    }
    DecisionStore.open(file, ledger, "b").close();
  }

  @Test
  void aFileChangedBehindItsBackIsNotWrittenOver() throws IOException {
    try (DecisionStore store = DecisionStore.open(file, ledger, "a")) {
      store.change(all -> all.with(UNDO_1));
      byte[] others = DecisionDocument.of(store.decisions().by("b")).bytes();
      Files.write(file, others);
      assertThatThrownBy(() -> store.change(all -> all.without(1)))
          .isInstanceOf(SealedDocumentException.class)
          .hasMessageContaining("changed by somebody else");
      assertThat(file).hasBinaryContent(others);
      assertThat(store.decisions().decisions()).containsKey(1L);
      Files.delete(file);
      assertThatThrownBy(() -> store.change(all -> all.without(1)))
          .hasMessageContaining("removed by somebody else");
    }
  }

  @Test
  void decisionsOfAnotherLedgerAreRefused() throws IOException {
    Files.write(file, DecisionDocument.of(full()).bytes());
    Ledger other = copy("whole");
    assertThatThrownBy(() -> DecisionStore.open(file, other, "a"))
        .isInstanceOf(SealedDocumentException.class)
        .hasMessageContaining("another ledger");
    // and it is not left locked
    DecisionStore.open(file, copy("repairs"), "a").close();
  }

  @Test
  void everyFlippedBitIsNoticed() throws IOException {
    byte[] bytes = DecisionDocument.of(full()).bytes();
    for (int bit = 0; bit < 8 * bytes.length; bit++) {
      byte[] other = bytes.clone();
      other[bit / 8] ^= (byte) (1 << bit % 8);
      Files.write(file, other);
      assertThatThrownBy(() -> DecisionDocument.read(file))
          .as("bit %d", bit)
          .isInstanceOf(SealedDocumentException.class);
    }
  }

  @Test
  void sealedButWrongIsRefusedToo() {
    String good = new String(DecisionDocument.of(full()).bytes(), UTF_8);
    for (String[] change :
        new String[][] {
          {"\"verdict\":\"ask\"", "\"verdict\":\"perhaps\"", "none of keep, undo, ask"},
          {"\"version\":1", "\"version\":2", "later than this program"},
          {"groovemend-decisions", "a-shopping-list", "no file of decisions"},
          {"\"channel\":0", "\"channel\":7", "no channel 7"},
          {"\"edit\":2", "\"edit\":1", "order of their edits"},
          {"\"edit\":3", "\"edit\":900", "no edit 900"},
          {"\"edit\":2", "\"edit\":2.5", "not a whole number"},
          {"\"reviewer\":", "\"revewer\":", "no member \"reviewer\""},
          {"\"rules\":", "\"more\":1,\"rules\":", "not known"},
          {"\"comment\":\"\"", "\"comment\":null", "not a text"}
        }) {
      assertThat(good).contains(change[0]);
      assertThatThrownBy(() -> resealed(good.replace(change[0], change[1])))
          .isInstanceOf(SealedDocumentException.class)
          .hasMessageContaining(change[2]);
    }
  }

  /** Seals what a forger wrote. */
  private static DecisionFile resealed(String text) throws Exception {
    String open =
        text.strip().replaceFirst("\"seal\":\"([0-9a-f]{64})\",\"signOff\"", "\"signOff\"");
    assertThat(open).isNotEqualTo(text.strip());
    byte[] json = CanonicalJson.canonical(open);
    String all = open.substring(0, open.length() - 1) + ",\"seal\":\"" + Sha256.of(json) + "\"}";
    String file = new String(CanonicalJson.canonical(all), UTF_8) + "\n";
    return DecisionDocument.of(SealedDocument.parse(file.getBytes(UTF_8), "it"), "it");
  }

  /**
   * A process that decides without end is killed; what is there is whole and at most one behind.
   */
  @Test
  void killedAtAnyMomentNothingIsLost() throws Exception {
    Path said = folder.resolve("said");
    for (int round = 0; round < 8; round++) {
      Process process =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  System.getProperty("java.class.path"),
                  Decider.class.getName(),
                  file.toString(),
                  ledger.path().toString())
              .redirectErrorStream(true)
              .redirectOutput(said.toFile())
              .start();
      while (process.isAlive() && lines(said) < 20 + 7 * round) {
        Thread.onSpinWait();
      }
      process.destroyForcibly();
      assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
      String all = Files.readString(said);
      // the last line may be cut short
      String[] whole = all.substring(0, all.lastIndexOf('\n')).split("\n");
      long told = Long.parseLong(whole[whole.length - 1]);
      long found = Long.parseLong(DecisionDocument.read(file).decisions().get(1L).comment());
      assertThat(found).isBetween(told, told + 1);
    }
  }

  private static long lines(Path text) throws IOException {
    return Files.readString(text).lines().count();
  }

  /** Changes its mind for ever and tells each time that it is saved. */
  static final class Decider {
    public static void main(String[] args) throws IOException {
      try (DecisionStore store =
          DecisionStore.open(Path.of(args[0]), Ledger.open(Path.of(args[1])), "a")) {
        Decision last = store.decisions().decisions().get(1L);
        for (long n = last == null ? 1 : Long.parseLong(last.comment()) + 1; ; n++) {
          Decision next = new Decision(1, Verdict.UNDO, Long.toString(n), AT);
          store.change(all -> all.with(next));
          System.out.println(n);
        }
      }
    }
  }
}
