package org.groovemend.signing;

import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.SecureRandom;
import java.security.Signature;
import java.security.interfaces.EdECPrivateKey;
import java.security.spec.InvalidKeySpecException;
import java.security.spec.PKCS8EncodedKeySpec;
import java.security.spec.X509EncodedKeySpec;

/** Ed25519 (RFC 8032, section 5.1) as the Java platform has it; keys as RFC 8410 codes them. */
final class Ed25519 {

  /** Bytes of a signature. */
  static final int SIGNATURE_BYTES = 64;

  private static final String NAME = "Ed25519";

  private Ed25519() {}

  static KeyPair generate() {
    return pair(new SecureRandom());
  }

  private static KeyPair pair(SecureRandom random) {
    try {
      KeyPairGenerator generator = KeyPairGenerator.getInstance(NAME);
      generator.initialize(255, random);
      return generator.generateKeyPair();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java platform from 15 on has Ed25519", e);
    }
  }

  /**
   * The pair of a private key. The platform has no way from one to the other but making a pair from
   * given random bytes, which are the private key (RFC 8032, section 5.1.5); that it did so is
   * tried with a signature.
   *
   * @throws InvalidKeySpecException if it is no key of this kind
   */
  static KeyPair pair(PrivateKey key) throws InvalidKeySpecException {
    byte[] secret =
        key instanceof EdECPrivateKey edwards
            ? edwards.getBytes().orElseThrow(() -> new InvalidKeySpecException("no bytes"))
            : new byte[0];
    if (secret.length != 32) {
      throw new InvalidKeySpecException("a private key of " + secret.length + " bytes");
    }
    KeyPair pair =
        pair(
            new SecureRandom() {
              private static final long serialVersionUID = 1L;

              @Override
              public void nextBytes(byte[] bytes) {
                System.arraycopy(secret, 0, bytes, 0, bytes.length);
              }
            });
    byte[] trial = {1, 2, 3};
    if (!verify(pair.getPublic(), trial, sign(key, trial))) {
      throw new InvalidKeySpecException("this Java platform cannot tell the public key");
    }
    return new KeyPair(pair.getPublic(), key);
  }

  /**
   * @param der PKCS#8 PrivateKeyInfo (RFC 5208)
   */
  static PrivateKey privateKey(byte[] der) throws InvalidKeySpecException {
    return factory().generatePrivate(new PKCS8EncodedKeySpec(der));
  }

  /**
   * @param der X.509 SubjectPublicKeyInfo (RFC 5280)
   */
  static PublicKey publicKey(byte[] der) throws InvalidKeySpecException {
    return factory().generatePublic(new X509EncodedKeySpec(der));
  }

  private static KeyFactory factory() {
    try {
      return KeyFactory.getInstance(NAME);
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java platform from 15 on has Ed25519", e);
    }
  }

  static byte[] sign(PrivateKey key, byte[] message) {
    try {
      Signature signature = Signature.getInstance(NAME);
      signature.initSign(key);
      signature.update(message);
      return signature.sign();
    } catch (GeneralSecurityException e) {
      throw new IllegalArgumentException("no key of Ed25519", e);
    }
  }

  /** False for whatever is not this key's signature of this message. */
  static boolean verify(PublicKey key, byte[] message, byte[] signed) {
    try {
      Signature signature = Signature.getInstance(NAME);
      signature.initVerify(key);
      // Java 17 takes an empty message for none unless it was given one, even empty
      signature.update(message);
      return signature.verify(signed);
    } catch (GeneralSecurityException e) {
      return false;
    }
  }
}
