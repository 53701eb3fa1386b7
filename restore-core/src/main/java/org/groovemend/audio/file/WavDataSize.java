package org.groovemend.audio.file;

import java.io.IOException;

/**
 * How many bytes of samples a {@code data} chunk really holds.
 *
 * @param notice one sentence when the header did not say so, else null
 */
record WavDataSize(long size, String notice) {

  private static final long FOUR_GIB = 1L << 32;

  /**
   * Sizes written by programs that could not go back to the header: sox to a pipe gives 0x7ffff000
   * less part of a frame (read in files it wrote), other recorders 2^31 or one less (from memory).
   */
  static boolean placeholder(long size32) {
    long sox = 0x7fff_f000L - size32;
    return ParsedSide.unset(size32)
        || size32 == 0x8000_0000L
        || size32 == 0x7fff_ffffL
        || sox >= 0 && sox < 16;
  }

  static WavDataSize resolve(SideBytes file, ChunkWalk walk, ChunkWalk.Chunk chunk, Ds64 ds64)
      throws IOException {
    long left = file.size() - chunk.contentAt();
    if (ds64 != null && (chunk.size32() == Ds64.ELSEWHERE || chunk.size32() == 0)) {
      if (ds64.dataSizeUnset()) {
        return toTheEnd(left, "The length of the samples in ds64 was never filled in");
      }
      return known(file, chunk, ds64.dataSize(), left, 28);
    }
    long size = chunk.size32();
    if (size == 0 && walk.onlyChunksFrom(chunk.contentAt())) {
      return new WavDataSize(0, null);
    }
    if (ParsedSide.unset(size) || size > left && placeholder(size)) {
      return toTheEnd(left, "The length of the samples was never filled in");
    }
    long afterData = chunk.contentAt() + size;
    if (ds64 == null && left >= FOUR_GIB && !goesOn(walk, afterData, size)) {
      return wrapped(walk, chunk.contentAt(), size, left);
    }
    WavDataSize known = known(file, chunk, size, left, chunk.headerAt() + 4);
    return ds64 == null || ds64.dataSizeUnset() || ds64.dataSize() == size
        ? known
        : new WavDataSize(
            size,
            "The data chunk gives its own size of "
                + size
                + " bytes, ds64 says "
                + Long.toUnsignedString(ds64.dataSize())
                + "; the chunk is followed.");
  }

  private static boolean goesOn(ChunkWalk walk, long afterData, long size) throws IOException {
    return walk.plausible(afterData) || (size & 1) != 0 && walk.plausible(afterData + 1);
  }

  private static WavDataSize toTheEnd(long left, String why) {
    return new WavDataSize(left, why + "; they are taken to run to the end of the file.");
  }

  /** A size beyond 4 GiB of which the header kept the low 32 bits. */
  private static WavDataSize wrapped(ChunkWalk walk, long contentAt, long size32, long left)
      throws IOException {
    long size = size32 + (left - size32) / FOUR_GIB * FOUR_GIB;
    String why = "The length of the samples is over 4 GiB and its 32-bit field holds only the rest";
    return goesOn(walk, contentAt + size, size)
        ? new WavDataSize(size, why + "; the file holds " + size + " bytes of them.")
        : toTheEnd(left, why);
  }

  private static WavDataSize known(
      SideBytes file, ChunkWalk.Chunk chunk, long size, long left, long fieldAt)
      throws IOException {
    if (size < 0 || size > left) {
      throw file.reject(
          chunk.where(),
          "the header announces "
              + Long.toUnsignedString(size)
              + " bytes of samples and the file"
              + " ends after "
              + left,
          ParsedSide.COPY_AGAIN
              + ", or, if the capture itself ended early, set the size at byte "
              + fieldAt
              + " to "
              + left
              + " in a copy");
    }
    return new WavDataSize(size, null);
  }
}
