package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.assertj.core.api.Assertions.fail;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.groovemend.ledger.LedgerDamagedException.Damage;
import org.junit.jupiter.api.Test;

/** Whatever happens to a ledger is noticed; the small ledger is the released one of version 1. */
class LedgerDamageTest {

  private final byte[] good = good();

  /** The ledger that is damaged. */
  byte[] good() {
    return GoldenLedger.bytes("v1/repairs/side.ledger.jsonl");
  }

  int version() {
    return 1;
  }

  private static void read(byte[] bytes) throws IOException {
    try (LedgerReader reader = new LedgerReader(new ByteArrayInputStream(bytes))) {
      while (reader.next() != null) {
        // only looked through
      }
    }
  }

  static LedgerDamagedException damage(byte[] bytes) {
    Throwable thrown = catchThrowable(() -> read(bytes));
    assertThat(thrown).isInstanceOf(LedgerDamagedException.class);
    return (LedgerDamagedException) thrown;
  }

  private List<String> lines() {
    return new ArrayList<>(List.of(new String(good, StandardCharsets.UTF_8).split("(?<=\n)")));
  }

  private static byte[] joined(List<String> lines) {
    return String.join("", lines).getBytes(StandardCharsets.UTF_8);
  }

  /**
   * The lines with all digests and the seal made right again: what is wrong must be noticed for
   * itself.
   */
  private static byte[] rechained(List<String> lines) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    String previous = LedgerJson.NO_PREVIOUS;
    for (String line : lines) {
      String text =
          line.replaceFirst("\"previous\":\"[0-9a-f]{64}\"", "\"previous\":\"" + previous + "\"")
              .replace("\n", "");
      if (text.startsWith("{\"record\":\"closing\"")) {
        int seal = text.indexOf(",\"seal\":\"");
        String start = text.substring(0, seal);
        text = start + ",\"seal\":\"" + Sha256.of(start.getBytes(StandardCharsets.UTF_8)) + "\"}";
      }
      byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
      previous = Sha256.of(bytes);
      out.write(bytes);
      out.write('\n');
    }
    return out.toByteArray();
  }

  private int line(String kind) {
    List<String> lines = lines();
    for (int i = 0; i < lines.size(); i++) {
      if (lines.get(i).startsWith("{\"record\":\"" + kind + "\"")) {
        return i;
      }
    }
    throw new AssertionError("no record " + kind);
  }

  byte[] edited(String kind, String what, String by) throws IOException {
    List<String> lines = lines();
    int i = line(kind);
    assertThat(lines.get(i)).contains(what);
    lines.set(i, lines.get(i).replace(what, by));
    return rechained(lines);
  }

  @Test
  void theLedgerItselfIsGood() throws IOException {
    read(good);
    assertThat(rechained(lines())).isEqualTo(good);
  }

  /**
   * The trouble met in reading, null if there is none; quicker than an assertion for tens of
   * thousands of cases.
   */
  private static IOException trouble(byte[] bytes) {
    try {
      read(bytes);
      return null;
    } catch (IOException e) {
      return e;
    }
  }

  @Test
  void everyTruncationIsNoticed() {
    Set<Damage> cuts = EnumSet.of(Damage.TRUNCATED, Damage.NOT_SEALED, Damage.NOT_A_LEDGER);
    for (int length = 0; length < good.length; length++) {
      IOException e = trouble(Arrays.copyOf(good, length));
      if (!(e instanceof LedgerDamagedException d && cuts.contains(d.damage()))) {
        fail("cut to %d bytes: %s", length, e);
      }
    }
    assertThat(damage(Arrays.copyOf(good, good.length - 1)).damage()).isEqualTo(Damage.TRUNCATED);
    assertThat(damage(joined(lines().subList(0, 3))).damage()).isEqualTo(Damage.NOT_SEALED);
  }

  @Test
  void everyFlippedBitIsNoticed() {
    byte[] bytes = good.clone();
    for (int bit = 0; bit < 8 * good.length; bit++) {
      bytes[bit / 8] ^= (byte) (1 << bit % 8);
      IOException e = trouble(bytes);
      // a flip of the version digit looks like a later format
      if (!(e instanceof LedgerDamagedException || e instanceof LedgerVersionException)) {
        fail("bit %d of byte %d: %s", bit % 8, bit / 8, e);
      }
      bytes[bit / 8] = good[bit / 8];
    }
  }

  @Test
  void aFlippedBitIsNamedByItsLine() {
    List<String> lines = lines();
    int at = 0;
    for (int i = 0; i < lines.size(); i++) {
      int length = lines.get(i).getBytes(StandardCharsets.UTF_8).length;
      byte[] bytes = good.clone();
      bytes[at + length - 5] ^= 1;
      LedgerDamagedException e = damage(bytes);
      assertThat(e.line()).isEqualTo(i + 1);
      assertThat(e.damage()).isEqualTo(i == lines.size() - 1 ? Damage.SEAL : Damage.HASH);
      at += length;
    }
  }

  @Test
  void everyLostDoubledOrExchangedLineIsNoticed() {
    int count = lines().size();
    for (int i = 0; i < count; i++) {
      List<String> lost = lines();
      lost.remove(i);
      damage(joined(lost));
      List<String> doubled = lines();
      doubled.add(i, doubled.get(i));
      damage(joined(doubled));
      for (int k = 0; k < i; k++) {
        List<String> exchanged = lines();
        Collections.swap(exchanged, i, k);
        damage(joined(exchanged));
      }
    }
  }

  @Test
  void alsoWithAllDigestsMadeRightLostAndDoubledLinesAreNoticed() throws IOException {
    int count = lines().size();
    for (int i = 0; i < count; i++) {
      if (lines().get(i).startsWith("{\"record\":\"analysis\"")) {
        continue; // how many analyses there are is known from the count alone, checked below
      }
      List<String> lost = lines();
      lost.remove(i);
      damage(rechained(lost));
      List<String> doubled = lines();
      doubled.add(i, doubled.get(i));
      damage(rechained(doubled));
    }
    List<String> lost = lines();
    lost.remove(line("analysis"));
    assertThat(damage(rechained(lost)))
        .hasMessageContaining("the closing record counts")
        .extracting(LedgerDamagedException::damage)
        .isEqualTo(Damage.SEQUENCE);
  }

  @Test
  void whatFollowsTheEndIsNoticed() {
    assertThat(damage(joined(List.of(joinedText(), "\n"))).damage())
        .isEqualTo(Damage.AFTER_THE_END);
    assertThat(damage(joined(List.of(joinedText(), joinedText()))).damage())
        .isEqualTo(Damage.AFTER_THE_END);
  }

  private String joinedText() {
    return String.join("", lines());
  }

  @Test
  void blankLinesAndConvertedLineEndsAreNamed() {
    List<String> lines = lines();
    lines.add(2, "\n");
    assertThat(damage(joined(lines))).hasMessageContaining("line 3").hasMessageContaining("blank");
    byte[] converted = joinedText().replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8);
    assertThat(damage(converted)).hasMessageContaining("line 1").hasMessageContaining("CR LF");
  }

  @Test
  void fieldsThatTheVersionDoesNotKnowAreRefused() throws IOException {
    LedgerDamagedException e = damage(edited("edit", ",\"method\":", ",\"mood\":1,\"method\":"));
    assertThat(e.damage()).isEqualTo(Damage.JSON);
    assertThat(e).hasMessageContaining("\"method\" is due").hasMessageContaining("mood");
    assertThat(e.line()).isEqualTo(line("edit") + 1L);
    damage(edited("header", "\"wholeSignal\":", "\"more\":true,\"wholeSignal\":"));
    assertThat(damage(edited("totals", "]}", "],\"more\":1}")))
        .hasMessageContaining("end of the object");
  }

  @Test
  void missingDoubledAndWronglyTypedFieldsAreRefused() throws IOException {
    damage(edited("edit", ",\"modelOrder\":2", ""));
    damage(edited("edit", ",\"modelOrder\":2", ",\"modelOrder\":2,\"modelOrder\":2"));
    damage(edited("edit", ",\"modelOrder\":2", ",\"modelOrder\":\"2\""));
    damage(edited("edit", ",\"modelOrder\":2", ",\"modelOrder\":2.0"));
    damage(edited("edit", ",\"modelOrder\":2", ",\"modelOrder\":null"));
    damage(edited("edit", ",\"modelOrder\":2", ",\"modelOrder\":99999999999999999999"));
    damage(edited("edit", ",\"modelOrder\":2", ",\"modelOrder\":-2"));
    damage(edited("edit", ",\"modelOrder\":2", ",\"modelOrder\":NaN"));
    damage(edited("analysis", "\"result\":{", "\"result\":{\"a\":1,\"a\":2,"));
    damage(edited("edit", "}\n", "} 1\n"));
    damage(edited("edit", "}\n", "}{}\n"));
    damage(edited("edit", "\"original\":\"", "\"original\":\"*"));
  }

  @Test
  void anUnknownKindOfRecordIsRefused() throws IOException {
    assertThat(damage(edited("analysis", "\"record\":\"analysis\"", "\"record\":\"opinion\"")))
        .hasMessageContaining("opinion");
  }

  @Test
  void aLaterVersionIsRefusedWithASentence() throws IOException {
    String version = "\"version\":" + version() + ",";
    byte[] later = edited("header", version, "\"version\":3,\"shape\":\"new\",");
    assertThatThrownBy(() -> read(later))
        .isInstanceOf(LedgerVersionException.class)
        .hasMessage(
            "The ledger has format version 3, this program reads up to 2; take the program that wrote it, or a later"
                + " one.");
    assertThat(damage(edited("header", version, "\"version\":0,")).damage()).isEqualTo(Damage.JSON);
  }

  @Test
  void anotherFileIsNoLedger() {
    byte[] wav = "RIFF$\0\0\0WAVEfmt ".getBytes(StandardCharsets.ISO_8859_1);
    assertThat(damage(Arrays.copyOf(wav, 5000)).damage()).isEqualTo(Damage.NOT_A_LEDGER);
    assertThat(damage("{\"some\":\"json\"}\n".getBytes(StandardCharsets.UTF_8)).damage())
        .isEqualTo(Damage.NOT_A_LEDGER);
    assertThat(damage(new byte[0]).damage()).isEqualTo(Damage.NOT_A_LEDGER);
  }

  @Test
  void aLineWithoutEndIsRefusedBeforeItFillsTheMemory() {
    byte[] endless = Arrays.copyOf(good, LedgerJson.MAX_LINE_BYTES + 100_000);
    Arrays.fill(endless, 100, endless.length, (byte) 'x');
    assertThat(damage(endless)).hasMessageContaining("longer than");
  }

  @Test
  void aFileNameThatLeadsElsewhereIsRefused() throws IOException {
    assertThat(damage(edited("header", "\"name\":\"side.wav\"", "\"name\":\"../side.wav\"")))
        .hasMessageContaining("not a file name without a folder");
  }
}
