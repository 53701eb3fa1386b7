package org.groovemend.signing;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigInteger;
import java.security.KeyPair;
import java.util.HexFormat;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** RFC 8032, section 7.1, TEST 1 to 3 (by its text from memory; a slip in it would not verify). */
class Ed25519ReferenceTest {

  /** RFC 8410, section 7: PKCS#8 and SubjectPublicKeyInfo in front of the bare 32 bytes. */
  private static final String PKCS8 = "302e020100300506032b657004220420";

  private static final String SPKI = "302a300506032b6570032100";

  private static final HexFormat HEX = HexFormat.of();

  @ParameterizedTest
  @CsvSource({
    "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60,"
        + "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a,'',"
        + "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e06522490155"
        + "5fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb,"
        + "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c,72,"
        + "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
        + "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7,"
        + "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025,af82,"
        + "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac"
        + "18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a"
  })
  void keysAndSignaturesAreThoseOfTheStandard(
      String secret, String open, String message, String signature) throws Exception {
    KeyPair pair = Ed25519.pair(Ed25519.privateKey(HEX.parseHex(PKCS8 + secret)));
    assertArrayEquals(HEX.parseHex(SPKI + open), pair.getPublic().getEncoded());
    byte[] text = HEX.parseHex(message);
    byte[] signed = Ed25519.sign(pair.getPrivate(), text);
    assertEquals(signature, HEX.formatHex(signed));
    assertTrue(Ed25519.verify(pair.getPublic(), text, signed));
    for (int bit = 0; bit < 8 * signed.length; bit++) {
      byte[] other = signed.clone();
      other[bit / 8] ^= (byte) (1 << bit % 8);
      assertFalse(Ed25519.verify(pair.getPublic(), text, other), "bit " + bit);
    }
    assertFalse(Ed25519.verify(pair.getPublic(), text, new byte[0]));
    assertFalse(
        Ed25519.verify(pair.getPublic(), text, secondForm(signed)),
        "RFC 8032, section 5.1.7: S is below the order of the group");
  }

  /** The same signature with S + L for S, L = 2^252 + 277423...493 (RFC 8032, section 5.1). */
  private static byte[] secondForm(byte[] signed) {
    BigInteger order =
        BigInteger.TWO.pow(252).add(new BigInteger("27742317777372353535851937790883648493"));
    byte[] s = new byte[32];
    for (int i = 0; i < 32; i++) {
      s[i] = signed[63 - i];
    }
    byte[] sum = new BigInteger(1, s).add(order).toByteArray();
    byte[] other = signed.clone();
    for (int i = 0; i < 32; i++) {
      int at = sum.length - 1 - i;
      other[32 + i] = at >= 0 ? sum[at] : 0;
    }
    return other;
  }
}
