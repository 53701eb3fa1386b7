package org.groovemend.audio.flac;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.Words;

/**
 * What {@link FlacWriter} puts before the frames: fLaC, STREAMINFO, SEEKTABLE, VORBIS_COMMENT and
 * pictures. Its length is known early.
 */
final class StreamHeader {

  private static final byte[] VENDOR = "groovemend".getBytes(StandardCharsets.US_ASCII);
  private static final int SEEK_SECONDS = 10;
  private static final int POINT_BYTES = 18;

  private final int blockSize;
  private final long totalFrames;
  private final long[] pointBlocks;
  private final long[] pointOffsets;
  private final List<MetadataBlock> blocks;
  private int known;

  StreamHeader(int sampleRateHz, int blockSize, long totalFrames, List<MetadataBlock> given) {
    this.blocks = withComment(given);
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

  private static List<MetadataBlock> withComment(List<MetadataBlock> given) {
    long comments = given.stream().filter(b -> b.type() == MetadataBlock.VORBIS_COMMENT).count();
    if (comments > 1) {
      throw new IllegalArgumentException(comments + " VORBIS_COMMENT blocks; there may be one");
    }
    if (comments == 1) {
      return List.copyOf(given);
    }
    byte[] comment = new byte[4 + VENDOR.length + 4];
    Words.putLittleEndian(VENDOR.length, comment, 0, 4);
    put(comment, 4, VENDOR);
    List<MetadataBlock> all = new ArrayList<>();
    all.add(new MetadataBlock(MetadataBlock.VORBIS_COMMENT, comment));
    all.addAll(given);
    return List.copyOf(all);
  }

  /** Told for every block in order: where its frame begins, counted from the first one. */
  void place(long block, long offset) {
    if (known < pointBlocks.length && pointBlocks[known] == block) {
      pointOffsets[known++] = offset;
    }
  }

  byte[] toBytes(StreamInfo info) {
    int table = pointBlocks.length * POINT_BYTES;
    int length = 4 + 4 + StreamInfo.BYTES + 4 + table;
    for (MetadataBlock block : blocks) {
      length += 4 + block.content().length;
    }
    byte[] out = new byte[length];
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
    for (int i = 0; i < blocks.size(); i++) {
      MetadataBlock block = blocks.get(i);
      int last = i == blocks.size() - 1 ? 0x80 : 0;
      at = blockHeader(out, at, last | block.type(), block.content().length);
      at = put(out, at, block.content());
    }
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
