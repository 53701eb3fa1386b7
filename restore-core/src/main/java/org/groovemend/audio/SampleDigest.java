package org.groovemend.audio;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * SHA-256 (FIPS 180-4) over the samples alone: interleaved words, each in containerBits / 8 bytes,
 * little end first. For a PCM or float WAV file these are the bytes of its data chunk; for any
 * other container the digest is the same if the samples are.
 */
public final class SampleDigest {

  private static final int CHUNK_FRAMES = 4096;

  private final AudioFormat format;
  private final MessageDigest sha256;
  private final byte[] bytes;

  public SampleDigest(AudioFormat format) {
    this.format = format;
    this.bytes = new byte[CHUNK_FRAMES * format.bytesPerFrame()];
    try {
      sha256 = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** Adds {@code count} frames from {@code words[channel][offset]} on. */
  public void update(long[][] words, int offset, int count) {
    int width = format.bytesPerSample();
    int channels = format.channels();
    for (int done = 0; done < count; done += CHUNK_FRAMES) {
      int n = Math.min(CHUNK_FRAMES, count - done);
      for (int c = 0; c < channels; c++) {
        long[] source = words[c];
        for (int i = 0, at = c * width; i < n; i++, at += width * channels) {
          Words.putLittleEndian(source[offset + done + i], bytes, at, width);
        }
      }
      sha256.update(bytes, 0, n * width * channels);
    }
  }

  /** Lower-case hexadecimal digest; the object starts anew. */
  public String hex() {
    return HexFormat.of().formatHex(sha256.digest());
  }
}
