package org.groovemend.bag;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Locale;

/** Checksums of manifests, by the names of RFC 8493, section 2.4. */
public enum DigestAlgorithm {
  /** Only read: too weak for new bags. */
  MD5("MD5", 32),
  /** Only read: too weak for new bags. */
  SHA1("SHA-1", 40),
  SHA224("SHA-224", 56),
  SHA256("SHA-256", 64),
  SHA384("SHA-384", 96),
  SHA512("SHA-512", 128);

  private final String javaName;
  private final int digits;

  DigestAlgorithm(String javaName, int digits) {
    this.javaName = javaName;
    this.digits = digits;
  }

  /** The name in file names: "sha256". */
  String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Hexadecimal digits of a checksum. */
  int digits() {
    return digits;
  }

  boolean strong() {
    return this != MD5 && this != SHA1;
  }

  MessageDigest digest() {
    try {
      return MessageDigest.getInstance(javaName);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has " + javaName, e);
    }
  }

  /** By the name in a file name, in any case, with or without a hyphen; null if unknown. */
  static DigestAlgorithm of(String key) {
    String plain = key.toLowerCase(Locale.ROOT).replace("-", "");
    for (DigestAlgorithm algorithm : values()) {
      if (algorithm.key().equals(plain)) {
        return algorithm;
      }
    }
    return null;
  }
}
