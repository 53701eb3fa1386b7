package org.groovemend.signing;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.security.AlgorithmParameters;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.util.HexFormat;
import javax.crypto.Cipher;
import javax.crypto.EncryptedPrivateKeyInfo;
import javax.crypto.SecretKey;
import javax.crypto.SecretKeyFactory;
import javax.crypto.spec.IvParameterSpec;
import javax.crypto.spec.PBEKeySpec;
import javax.crypto.spec.PBEParameterSpec;

/**
 * A private key under a passphrase: PKCS#8 EncryptedPrivateKeyInfo with PBES2 of PKCS#5 (RFC 8018):
 * PBKDF2 with HMAC-SHA-256, AES-256 in CBC mode. What the platform knows of PBES2 besides is read.
 */
final class EncryptedKey {

  private static final String SCHEME = "PBEWithHmacSHA256AndAES_256";
  private static final String PBES2_OID = "1.2.840.113549.1.5.13";
  private static final String PBES2_DER = "06092a864886f70d01050d";
  private static final int SEQUENCE = 0x30;
  private static final int OCTETS = 0x04;

  /** Common practice for PBKDF2 with HMAC-SHA-256 in 2023 and after, no source at hand. */
  private static final int ITERATIONS = 600_000;

  private static final int SALT_BYTES = 16;
  private static final int IV_BYTES = 16;

  private EncryptedKey() {}

  static byte[] encrypt(byte[] pkcs8, char[] passphrase) {
    try {
      SecureRandom random = new SecureRandom();
      byte[] salt = new byte[SALT_BYTES];
      byte[] iv = new byte[IV_BYTES];
      random.nextBytes(salt);
      random.nextBytes(iv);
      Cipher cipher = Cipher.getInstance(SCHEME);
      cipher.init(
          Cipher.ENCRYPT_MODE,
          key(SCHEME, passphrase),
          new PBEParameterSpec(salt, ITERATIONS, new IvParameterSpec(iv)));
      byte[] encrypted = cipher.doFinal(pkcs8);
      return der(SEQUENCE, algorithm(cipher.getParameters().getEncoded()), der(OCTETS, encrypted));
    } catch (GeneralSecurityException | IOException e) {
      throw new IllegalArgumentException(
          "a key cannot be encrypted with this passphrase: " + e.getMessage(), e);
    }
  }

  /**
   * AlgorithmIdentifier of PBES2. Java 17 cannot write an EncryptedPrivateKeyInfo of it, and codes
   * the parameters together with the identifier; later versions code them alone.
   */
  private static byte[] algorithm(byte[] parameters) {
    String hex = HexFormat.of().formatHex(parameters);
    return hex.startsWith(PBES2_DER, 4)
        ? parameters
        : der(SEQUENCE, HexFormat.of().parseHex(PBES2_DER), parameters);
  }

  /** One DER value (ITU-T X.690, sections 8.1.3 and 10.1) of up to 65,535 bytes. */
  private static byte[] der(int tag, byte[]... parts) {
    ByteArrayOutputStream content = new ByteArrayOutputStream();
    for (byte[] part : parts) {
      content.writeBytes(part);
    }
    int length = content.size();
    ByteArrayOutputStream der = new ByteArrayOutputStream();
    der.write(tag);
    if (length >= 256) {
      der.write(0x82);
      der.write(length >> 8);
    } else if (length >= 128) {
      der.write(0x81);
    }
    der.write(length);
    der.writeBytes(content.toByteArray());
    return der.toByteArray();
  }

  static byte[] decrypt(byte[] der, char[] passphrase)
      throws GeneralSecurityException, IOException {
    EncryptedPrivateKeyInfo info = new EncryptedPrivateKeyInfo(der);
    AlgorithmParameters parameters = info.getAlgParameters();
    // for PBES2 only the parameters know the scheme by the name that the platform gives it
    boolean nameless = info.getAlgName().equals(PBES2_OID) || info.getAlgName().equals("PBES2");
    String scheme = nameless ? parameters.toString() : info.getAlgName();
    Cipher cipher = Cipher.getInstance(scheme);
    cipher.init(Cipher.DECRYPT_MODE, key(scheme, passphrase), parameters);
    return info.getKeySpec(cipher).getEncoded();
  }

  private static SecretKey key(String scheme, char[] passphrase) throws GeneralSecurityException {
    return SecretKeyFactory.getInstance(scheme).generateSecret(new PBEKeySpec(passphrase));
  }
}
