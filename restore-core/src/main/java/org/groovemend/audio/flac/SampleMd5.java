package org.groovemend.audio.flac;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;

/**
 * MD5 over interleaved samples, each in as few whole bytes as hold its bits, little end first: RFC
 * 9639 section 8.2.
 */
final class SampleMd5 {

  private static final VarHandle LONGS =
      MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
  private static final VarHandle INTS =
      MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.LITTLE_ENDIAN);

  private final MessageDigest md5;
  private final int channels;
  private final int width;
  private byte[] bytes = new byte[0];

  SampleMd5(int channels, int bits) {
    this.channels = channels;
    this.width = (bits + 7) / 8;
    try {
      md5 = MessageDigest.getInstance("MD5");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has MD5", e);
    }
  }

  void update(int[][] samples, int count) {
    int length = count * width * channels;
    if (bytes.length < length + 8) {
      bytes = new byte[length + 8];
    }
    // each store reaches past its sample and the next one mends that
    byte[] out = bytes;
    int w = width;
    int[] left = samples[0];
    if (channels == 1) {
      for (int i = 0, at = 0; i < count; i++, at += w) {
        INTS.set(out, at, left[i]);
      }
    } else {
      int[] right = samples[1];
      int shift = 8 * w;
      long mask = (1L << shift) - 1;
      for (int i = 0, at = 0; i < count; i++, at += 2 * w) {
        LONGS.set(out, at, left[i] & mask | (long) right[i] << shift);
      }
    }
    md5.update(out, 0, length);
  }

  byte[] digest() {
    return md5.digest();
  }

  static boolean same(byte[] a, byte[] b) {
    return Arrays.equals(a, b);
  }
}
