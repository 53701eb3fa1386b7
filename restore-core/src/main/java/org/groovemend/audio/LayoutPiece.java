package org.groovemend.audio;

/** One piece of a file, in file order. Together the pieces of a file are all its bytes. */
public sealed interface LayoutPiece {

  /** Bytes kept as they are; at most {@link #MAX_BYTES} in one piece. */
  record Bytes(byte[] content) implements LayoutPiece {}

  /** Interleaved sample words, each in {@code containerBits / 8} bytes. */
  record PcmFrames(long firstFrame, long frames, boolean bigEndian) implements LayoutPiece {}

  /**
   * Consecutive FLAC frames holding {@code frames} sample frames.
   *
   * @param recipe every coding decision of these frames (predictors, partitions, parameters) but no
   *     samples: with the samples it gives the bytes back
   */
  record FlacFrames(long firstFrame, int frames, byte[] recipe) implements LayoutPiece {}

  int MAX_BYTES = 48 * 1024;
}
