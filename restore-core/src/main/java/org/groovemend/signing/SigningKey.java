package org.groovemend.signing;

import java.security.KeyPair;

/** A private key and its public half. */
public final class SigningKey {

  private final KeyPair pair;

  SigningKey(KeyPair pair) {
    this.pair = pair;
  }

  /** A new one, from the platform's source of randomness. */
  public static SigningKey generate() {
    return new SigningKey(Ed25519.generate());
  }

  public VouchingKey vouching() {
    return VouchingKey.of(pair.getPublic());
  }

  byte[] sign(byte[] message) {
    return Ed25519.sign(pair.getPrivate(), message);
  }

  /** PKCS#8 PrivateKeyInfo in DER. */
  byte[] pkcs8() {
    return pair.getPrivate().getEncoded();
  }
}
