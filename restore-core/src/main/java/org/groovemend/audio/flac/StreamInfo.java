package org.groovemend.audio.flac;

import java.util.Arrays;
import org.groovemend.audio.Words;

/**
 * The STREAMINFO block, RFC 9639 section 8.2.
 *
 * @param minBlockSize frames in the shortest block but the last
 * @param maxBlockSize frames in the longest block
 * @param minFrameBytes 0 if not known
 * @param maxFrameBytes 0 if not known
 * @param sampleRateHz 0 to 1,048,575
 * @param channels 1 to 8
 * @param bits of a sample, 4 to 32
 * @param totalFrames 0 if not known
 * @param md5 16 bytes, MD5 of the interleaved samples, little end first; all zero if not computed
 */
record StreamInfo(
    int minBlockSize,
    int maxBlockSize,
    int minFrameBytes,
    int maxFrameBytes,
    int sampleRateHz,
    int channels,
    int bits,
    long totalFrames,
    byte[] md5) {

  static final int BYTES = 34;
  static final long MAX_TOTAL_FRAMES = (1L << 36) - 1;

  static StreamInfo parse(byte[] block) {
    long shape = Words.getBigEndian(block, 10, 8);
    return new StreamInfo(
        number(block, 0, 2),
        number(block, 2, 2),
        number(block, 4, 3),
        number(block, 7, 3),
        (int) (shape >>> 44),
        (int) (shape >>> 41 & 7) + 1,
        (int) (shape >>> 36 & 31) + 1,
        shape & MAX_TOTAL_FRAMES,
        Arrays.copyOfRange(block, 18, BYTES));
  }

  private static int number(byte[] block, int at, int bytes) {
    return (int) Words.getBigEndian(block, at, bytes) & (1 << 8 * bytes) - 1;
  }

  byte[] toBytes() {
    byte[] block = new byte[BYTES];
    Words.putBigEndian(minBlockSize, block, 0, 2);
    Words.putBigEndian(maxBlockSize, block, 2, 2);
    Words.putBigEndian(minFrameBytes, block, 4, 3);
    Words.putBigEndian(maxFrameBytes, block, 7, 3);
    long shape =
        (long) sampleRateHz << 44 | (channels - 1L) << 41 | (bits - 1L) << 36 | totalFrames;
    Words.putBigEndian(shape, block, 10, 8);
    System.arraycopy(md5, 0, block, 18, 16);
    return block;
  }

  boolean hasMd5() {
    for (byte b : md5) {
      if (b != 0) {
        return true;
      }
    }
    return false;
  }
}
