package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Against the example messages of FIPS 180-4 in fixtures/reference/digest/file_vectors.csv. */
class Sha256ReferenceTest {

  private static final Map<String, String> EXPECTED = new HashMap<>();

  @TempDir Path folder;

  @BeforeAll
  static void readTable() throws IOException {
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(
                Sha256ReferenceTest.class.getResourceAsStream(
                    "/fixtures/reference/digest/file_vectors.csv"),
                StandardCharsets.UTF_8))) {
      lines
          .lines()
          .filter(line -> line.startsWith("sha256,"))
          .map(line -> line.split(","))
          .forEach(fields -> EXPECTED.put(fields[1], fields[2]));
    }
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  @Test
  void messagesOfTheStandardGiveItsDigests() {
    assertThat(Sha256.of(new byte[0])).isEqualTo(EXPECTED.get("empty"));
    assertThat(Sha256.of(ascii("abc"))).isEqualTo(EXPECTED.get("abc"));
    assertThat(Sha256.of(ascii("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")))
        .isEqualTo(EXPECTED.get("448-bit message"));
  }

  @Test
  void aMillionLettersGiveTheDigestInPiecesAndFromAFile() throws IOException {
    byte[] million = ascii("a".repeat(1_000_000));
    Sha256 pieces = new Sha256();
    for (int at = 0; at < million.length; at += 777) {
      pieces.update(million, at, Math.min(777, million.length - at));
    }
    assertThat(pieces.hex()).isEqualTo(EXPECTED.get("one million a"));
    assertThat(Sha256.of(Files.write(folder.resolve("a"), million)))
        .isEqualTo(EXPECTED.get("one million a"));
  }

  @Test
  void anotherMessageGivesAnotherDigest() {
    assertThat(Sha256.of(ascii("abd"))).isNotEqualTo(EXPECTED.get("abc"));
  }
}
