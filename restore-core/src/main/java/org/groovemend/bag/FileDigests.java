package org.groovemend.bag;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.Map;
import java.util.function.LongConsumer;

/** Several checksums of a file in one reading. */
final class FileDigests {

  private static final int BUFFER_BYTES = 1 << 16;

  private FileDigests() {}

  /**
   * Reads the file once.
   *
   * @param progress told the bytes of every portion
   * @return lower-case hexadecimal digits
   */
  static Map<DigestAlgorithm, String> of(
      Path file, Collection<DigestAlgorithm> algorithms, LongConsumer progress) throws IOException {
    Map<DigestAlgorithm, MessageDigest> digests = new EnumMap<>(DigestAlgorithm.class);
    for (DigestAlgorithm algorithm : algorithms) {
      digests.put(algorithm, algorithm.digest());
    }
    byte[] buffer = new byte[BUFFER_BYTES];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        for (MessageDigest digest : digests.values()) {
          digest.update(buffer, 0, n);
        }
        progress.accept(n);
      }
    }
    Map<DigestAlgorithm, String> hex = new EnumMap<>(DigestAlgorithm.class);
    digests.forEach((a, digest) -> hex.put(a, HexFormat.of().formatHex(digest.digest())));
    return hex;
  }
}
