package org.groovemend.signing;

import java.util.HexFormat;
import java.util.Locale;

/**
 * A seal, shortened for people: 24 characters in six groups, such as {@code
 * 0M4K-9Z7T-V2QD-8H3C-6XNB-5RJP}.
 *
 * <p>23 characters are the first {@value #BITS} bits of a SHA-256, five bits each, the highest
 * first. Their alphabet is digits and capitals without I, L, O and U, so that nothing written by
 * hand can be taken for something else; what is read as O counts as 0, I and L as 1. (An alphabet
 * in this manner is in public use as "base 32"; that of RFC 4648 section 6 keeps I, L, O and U.)
 * The last character checks the others: with weights 2^i in the field of 32 elements (x^5 + x^2 +
 * 1) the sum of all 24 is 0. One wrong character and any two that were swapped are always noticed,
 * other slips in 31 of 32 cases; {@code FingerprintTest} tries every one.
 *
 * @param text as it is printed
 */
public record Fingerprint(String text) {

  /** Bits of the digest that it holds. */
  public static final int BITS = 115;

  private static final String ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  private static final int DATA = BITS / 5;
  private static final int LENGTH = DATA + 1;
  private static final int GROUP = 4;

  /** x^5 + x^2 + 1, primitive over GF(2). */
  private static final int FIELD = 0b100101;

  /**
   * Of a seal or any SHA-256.
   *
   * @param sha256 64 hexadecimal digits
   */
  public static Fingerprint of(String sha256) {
    byte[] digest = HexFormat.of().parseHex(sha256);
    if (digest.length != 32) {
      throw new IllegalArgumentException(sha256 + " is no SHA-256");
    }
    int[] values = new int[LENGTH];
    for (int bit = 0; bit < BITS; bit++) {
      int one = digest[bit / 8] >> (7 - bit % 8) & 1;
      values[bit / 5] = values[bit / 5] << 1 | one;
    }
    values[DATA] = checkOf(values);
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < LENGTH; i++) {
      text.append(i > 0 && i % GROUP == 0 ? "-" : "").append(ALPHABET.charAt(values[i]));
    }
    return new Fingerprint(text.toString());
  }

  /**
   * Reads what somebody typed off a sleeve: capitals or not, with hyphens, blanks or nothing
   * between.
   *
   * @throws IllegalArgumentException if it is none, in words that say what is wrong with it
   */
  public static Fingerprint parse(String typed) {
    String plain = typed.toUpperCase(Locale.ROOT).replaceAll("[\\s\u2010-\u2015_.-]", "");
    String read = plain.replace('O', '0').replace('I', '1').replace('L', '1');
    int[] values = new int[LENGTH];
    for (int i = 0; i < read.length(); i++) {
      int value = ALPHABET.indexOf(read.charAt(i));
      if (value < 0) {
        throw new IllegalArgumentException(
            "\""
                + plain.charAt(i)
                + "\" is not a character of a fingerprint; they are "
                + ALPHABET);
      }
      if (i < LENGTH) {
        values[i] = value;
      }
    }
    if (read.length() != LENGTH) {
      throw new IllegalArgumentException(
          "a fingerprint has "
              + LENGTH
              + " characters, this has "
              + read.length()
              + "; look at the sleeve again");
    }
    if (checkOf(values) != values[DATA]) {
      throw new IllegalArgumentException(
          "the check character of \""
              + typed
              + "\" does not fit: a character is misread or two are swapped; look at the sleeve"
              + " again");
    }
    StringBuilder text = new StringBuilder(read);
    for (int at = LENGTH - GROUP; at > 0; at -= GROUP) {
      text.insert(at, '-');
    }
    return new Fingerprint(text.toString());
  }

  private static int checkOf(int[] values) {
    int sum = 0;
    int weight = 1;
    for (int i = 0; i < DATA; i++) {
      weight = times(weight, 2);
      sum ^= times(values[i], weight);
    }
    return sum;
  }

  private static int times(int a, int b) {
    int product = 0;
    for (int bit = 4; bit >= 0; bit--) {
      product <<= 1;
      if ((product & 32) != 0) {
        product ^= FIELD;
      }
      if ((b >> bit & 1) != 0) {
        product ^= a;
      }
    }
    return product;
  }

  @Override
  public String toString() {
    return text;
  }
}
