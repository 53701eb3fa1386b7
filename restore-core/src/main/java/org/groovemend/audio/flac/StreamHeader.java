package org.groovemend.audio.flac;

import java.nio.charset.StandardCharsets;
import org.groovemend.audio.Words;

/**
 * What {@link FlacWriter} puts before the frames: fLaC, STREAMINFO, SEEKTABLE, VORBIS_COMMENT. Its
 * length is known early.
 */
final class StreamHeader {

  private static final byte[] VENDOR = "groovemend".getBytes(StandardCharsets.US_ASCII);
  private static final int SEEK_SECONDS = 10;
  private static final int POINT_BYTES = 18;

  private final int blockSize;
  private final long totalFrames;
  private final long[] pointBlocks;
  private final long[] pointOffsets;
  private int known;

  StreamHeader(int sampleRateHz, int blockSize, long totalFrames) {
    this.blockSize = blockSize;
    this.totalFrames = totalFrames;
    long step = (long) SEEK_SECONDS * sampleRateHz;
    int points = (int) Math.min((totalFrames + step - 1) / step, ((1 << 24) - 1) / POINT_BYTES);
    pointBlocks = new long[points];
    pointOffsets = new long[points];
    for (int i = 0; i < points; i++) {
      pointBlocks[i] = i * step / blockSize;
    }
  }

  /** Told for every block in order: where its frame begins, counted from the first one. */
  void place(long block, long offset) {
    if (known < pointBlocks.length && pointBlocks[known] == block) {
      pointOffsets[known++] = offset;
    }
  }

  byte[] toBytes(StreamInfo info) {
    int table = pointBlocks.length * POINT_BYTES;
    int comment = 4 + VENDOR.length + 4;
    byte[] out = new byte[4 + 4 + StreamInfo.BYTES + 4 + table + 4 + comment];
    int at = put(out, 0, "fLaC".getBytes(StandardCharsets.US_ASCII));
    at = blockHeader(out, at, 0, StreamInfo.BYTES);
    at = put(out, at, info.toBytes());
    at = blockHeader(out, at, 3, table);
    for (int i = 0; i < pointBlocks.length; i++) {
      long first = pointBlocks[i] * blockSize;
      Words.putBigEndian(first, out, at, 8);
      Words.putBigEndian(pointOffsets[i], out, at + 8, 8);
      Words.putBigEndian(Math.min(blockSize, totalFrames - first), out, at + 16, 2);
      at += POINT_BYTES;
    }
    at = blockHeader(out, at, 0x80 | 4, comment);
    Words.putLittleEndian(VENDOR.length, out, at, 4);
    put(out, at + 4, VENDOR);
    return out;
  }

  private static int blockHeader(byte[] out, int at, int type, int length) {
    Words.putBigEndian((long) type << 24 | length, out, at, 4);
    return at + 4;
  }

  private static int put(byte[] out, int at, byte[] content) {
    System.arraycopy(content, 0, out, at, content.length);
    return at + content.length;
  }
}
