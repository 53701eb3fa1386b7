package org.groovemend.signing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.groovemend.ledger.Sha256;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FingerprintTest {

  private static final String ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

  private static String some(int n) {
    return Sha256.of(("side " + n).getBytes(StandardCharsets.UTF_8));
  }

  /** The slow obvious way: the digest as one whole number, shifted, in base 32. */
  private static String dataOf(String sha256) {
    BigInteger number = new BigInteger(sha256, 16).shiftRight(256 - Fingerprint.BITS);
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < 23; i++) {
      text.insert(0, ALPHABET.charAt(number.intValue() & 31));
      number = number.shiftRight(5);
    }
    return text.toString();
  }

  @Test
  void dataAreTheFirstBitsOfTheDigest() {
    for (int n = 0; n < 1000; n++) {
      String text = Fingerprint.of(some(n)).text();
      assertTrue(text.matches("([0-9A-HJKMNP-TV-Z]{4}-){5}[0-9A-HJKMNP-TV-Z]{4}"), text);
      assertEquals(dataOf(some(n)), text.replace("-", "").substring(0, 23));
    }
  }

  /**
   * Weights 2^i in the field of 32 elements by x^5 + x^2 + 1, worked out on paper: with a single
   * data character of value 1 at the end, position 23, the check is 2^23. Powers of 2 from 2^5 on:
   * 5, 10, 20, 13, 26, 17, 7, 14, 28, 29, 31, 27, 19, 3, 6, 12, 24, 21, 15 (= 2^23).
   */
  @Test
  void checkCharacterIsTheOneOfTheFormula() {
    String digest = new BigInteger("1").shiftLeft(256 - Fingerprint.BITS).toString(16);
    String padded = "0".repeat(64 - digest.length()) + digest;
    assertEquals(
        "0000-0000-0000-0000-0000-001" + ALPHABET.charAt(15), Fingerprint.of(padded).text());
  }

  @Test
  void everyWrongCharacterIsNoticed() {
    for (int n = 0; n < 20; n++) {
      String right = Fingerprint.of(some(n)).text().replace("-", "");
      for (int at = 0; at < right.length(); at++) {
        for (char c : ALPHABET.toCharArray()) {
          if (c != right.charAt(at)) {
            String wrong = right.substring(0, at) + c + right.substring(at + 1);
            assertThrows(IllegalArgumentException.class, () -> Fingerprint.parse(wrong), wrong);
          }
        }
      }
    }
  }

  @Test
  void anyTwoThatAreSwappedAreNoticed() {
    for (int n = 0; n < 100; n++) {
      String right = Fingerprint.of(some(n)).text().replace("-", "");
      for (int a = 0; a < right.length(); a++) {
        for (int b = a + 1; b < right.length(); b++) {
          if (right.charAt(a) != right.charAt(b)) {
            StringBuilder wrong = new StringBuilder(right);
            wrong.setCharAt(a, right.charAt(b));
            wrong.setCharAt(b, right.charAt(a));
            assertThrows(IllegalArgumentException.class, () -> Fingerprint.parse(wrong.toString()));
          }
        }
      }
    }
  }

  /** Documented: other slips pass once in 32; five standard deviations of 20,000 trials. */
  @Test
  void otherSlipsAreNoticedInThirtyOneOfThirtyTwoCases() {
    Random random = new Random(7);
    int passed = 0;
    int trials = 20_000;
    for (int n = 0; n < trials; n++) {
      StringBuilder typed = new StringBuilder();
      for (int i = 0; i < 24; i++) {
        typed.append(ALPHABET.charAt(random.nextInt(32)));
      }
      try {
        Fingerprint.parse(typed.toString());
        passed++;
      } catch (IllegalArgumentException noticed) {
        // as it should be
      }
    }
    assertEquals(trials / 32.0, passed, 5 * Math.sqrt(trials / 32.0));
  }

  @Test
  void whatIsTypedOtherwiseIsTheSame() {
    Fingerprint right = Fingerprint.of(some(3));
    String lower = right.text().toLowerCase(java.util.Locale.ROOT);
    assertEquals(right, Fingerprint.parse(lower.replace("-", "")));
    assertEquals(right, Fingerprint.parse(" " + lower.replace("-", " ") + " "));
    assertEquals(right, Fingerprint.parse(lower.replace('0', 'o').replace('1', 'l')));
    assertEquals(right, Fingerprint.parse(right.text().replace('0', 'O').replace('1', 'I')));
    assertNotEquals(right, Fingerprint.of(some(4)));
  }

  @ParameterizedTest
  @CsvSource({
    "0000-0000, 24 characters",
    "0000-0000-0000-0000-0000-00U0, is not a character",
    "'', 24 characters",
    "0000-0000-0000-0000-0000-0001, check character",
    "0000-0000-0000-0000-0000-00000, this has 25"
  })
  void whatIsNoneIsToldWhy(String typed, String words) {
    IllegalArgumentException told =
        assertThrows(IllegalArgumentException.class, () -> Fingerprint.parse(typed));
    assertTrue(told.getMessage().contains(words), told.getMessage());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "00", "zz"})
  void onlyADigestHasOne(String digest) {
    assertThrows(IllegalArgumentException.class, () -> Fingerprint.of(digest));
  }
}
