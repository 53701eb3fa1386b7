package org.groovemend.ledger;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;

/** SHA-256 (FIPS 180-4), always as 64 lower-case hexadecimal digits. */
public final class Sha256 {

  private static final int BUFFER_BYTES = 1 << 16;

  private final MessageDigest digest;

  public Sha256() {
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  public void update(byte[] bytes, int offset, int length) {
    digest.update(bytes, offset, length);
  }

  /** The digest; the object starts anew. */
  public String hex() {
    return HexFormat.of().formatHex(digest.digest());
  }

  /** Digest of some bytes alone; what was given to {@link #update} before counts too. */
  public String hex(byte[] bytes, int offset, int length) {
    digest.update(bytes, offset, length);
    return hex();
  }

  public static String of(byte[] bytes) {
    return new Sha256().hex(bytes, 0, bytes.length);
  }

  /** Digest of a whole file. */
  public static String of(Path file) throws IOException {
    return of(file, () -> true);
  }

  /**
   * Digest of a whole file, as long as it is wanted.
   *
   * @throws java.util.concurrent.CancellationException if it no longer is
   */
  public static String of(Path file, BooleanSupplier wanted) throws IOException {
    Sha256 sha256 = new Sha256();
    byte[] buffer = new byte[BUFFER_BYTES];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        if (!wanted.getAsBoolean()) {
          throw new CancellationException("nobody waits for the digest of " + file);
        }
        sha256.update(buffer, 0, n);
      }
    }
    return sha256.hex();
  }

  static boolean isHex(String text) {
    if (text == null || text.length() != 64) {
      return false;
    }
    for (int i = 0; i < 64; i++) {
      char c = text.charAt(i);
      if (!(c >= '0' && c <= '9' || c >= 'a' && c <= 'f')) {
        return false;
      }
    }
    return true;
  }

  static void requireHex(String text, String what) {
    if (!isHex(text)) {
      throw new IllegalArgumentException(
          what + " is not 64 lower-case hexadecimal digits: " + text);
    }
  }
}
