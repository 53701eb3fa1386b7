package org.groovemend.audio.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.InputRejectedException;

/**
 * What the parsers of RIFF and IFF files share: the walk over the chunks, where it may end, and
 * what is odd about it.
 */
abstract class ChunkParser {

  static final int FIRST_CHUNK = 12;

  final SideBytes file;
  final ChunkWalk walk;
  final List<String> parts = new ArrayList<>();
  final List<String> notices = new ArrayList<>();
  private final String sound;
  private long whole;
  private boolean wholeUnset;
  private boolean restIsChunks;

  /**
   * @param sound name of the chunk of the samples, whose size may reach past the end of the file
   */
  ChunkParser(SideBytes file, boolean bigEndian, String sound) {
    this.file = file;
    this.walk = new ChunkWalk(file, bigEndian, this::sizeOf);
    this.sound = sound;
  }

  /** Real size of a chunk, from what its header says. */
  long sizeOf(String id, long size32) {
    return size32;
  }

  /** Takes a chunk in and says where the next one begins. */
  abstract long take(ChunkWalk.Chunk chunk) throws IOException;

  /** Whether all that is needed has been found. */
  abstract boolean complete();

  /** Sets the size of all chunks together that the file begins with. */
  final void announced(long size, boolean unset) {
    whole = size;
    wholeUnset = unset;
  }

  final long announced() {
    return whole;
  }

  /** Takes in chunk by chunk; gives the end of the last. */
  final long takeAll() throws IOException {
    long at = FIRST_CHUNK;
    while (at < file.size()) {
      ChunkWalk.Chunk chunk = walk.at(at);
      boolean mayStop = complete();
      if (mayStop && !wholeUnset && at - 8 >= whole && !onlyChunksFrom(at)) {
        break;
      }
      if (chunk == null || !chunk.id().equals(sound) && !walk.fits(chunk)) {
        if (!mayStop) {
          throw broken(at, chunk);
        }
        break;
      }
      if (parts.size() >= ChunkWalk.MAX_CHUNKS) {
        throw file.reject(
            "at byte " + at, "there are more than 50000 chunks", ParsedSide.COPY_OR_EXPORT);
      }
      at = take(chunk);
    }
    return at;
  }

  final void require(Object found, String id, long end) throws InputRejectedException {
    if (found == null) {
      throw file.reject(
          "at byte " + end,
          "there is no '" + id + "' chunk before the end",
          ParsedSide.COPY_OR_EXPORT);
    }
  }

  /** Where the next chunk begins. */
  final long after(ChunkWalk.Chunk chunk) throws IOException {
    long next = walk.next(chunk);
    if ((chunk.size() & 1) != 0 && next == chunk.end()) {
      notices.add(
          "The byte that pads chunk '"
              + chunk.id()
              + "' at byte "
              + chunk.headerAt()
              + " to an even size is missing.");
    }
    return next;
  }

  final void noticeBrokenFrame(long soundBytes, int frameBytes) {
    if (soundBytes % frameBytes != 0) {
      notices.add(
          "The samples end with "
              + soundBytes % frameBytes
              + " bytes that make no whole frame; they are kept but not heard.");
    }
  }

  final void noticeRest(long end) {
    if (end < file.size()) {
      notices.add(
          "The last "
              + (file.size() - end)
              + " bytes, from byte "
              + end
              + " on, are no chunk; they are kept for the way back but not carried into a copy.");
    }
  }

  final void noticeWholeSize(long end, int sizeAt) {
    long expected = end - 8;
    boolean counted =
        whole == expected
            || whole == expected - 1 && (end & 1) == 0 // the last padding not counted
            || whole == expected + 1 && (end & 1) != 0; // the last padding counted but missing
    if (!counted) {
      notices.add(
          "The size of the whole at byte "
              + sizeAt
              + (wholeUnset ? " was never filled in" : " says " + Long.toUnsignedString(whole))
              + ", the chunks make "
              + expected
              + ".");
    }
  }

  private boolean onlyChunksFrom(long at) throws IOException {
    // what follows a place from which only chunks follow is known to be chunks
    restIsChunks = restIsChunks || walk.onlyChunksFrom(at);
    return restIsChunks;
  }

  private InputRejectedException broken(long at, ChunkWalk.Chunk chunk) throws IOException {
    if (chunk == null) {
      return file.reject(
          "at byte " + at,
          "a chunk should begin here but there are " + walk.found(at),
          ParsedSide.COPY_OR_EXPORT);
    }
    return file.reject(
        chunk.where(),
        "it claims "
            + Long.toUnsignedString(chunk.size())
            + " bytes and "
            + (file.size() - chunk.contentAt())
            + " are left in the file",
        ParsedSide.COPY_OR_EXPORT);
  }
}
