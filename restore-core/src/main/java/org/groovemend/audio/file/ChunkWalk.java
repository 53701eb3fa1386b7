package org.groovemend.audio.file;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * Steps from chunk to chunk of a RIFF or IFF file: a name of four characters, a size of four bytes,
 * the content, and one byte of padding after an odd size, which some programs leave out.
 */
final class ChunkWalk {

  /** A chunk's place; {@code size} may reach past the end of the file, the walk does not judge. */
  record Chunk(String id, long headerAt, long size32, long size) {

    long contentAt() {
      return headerAt + HEADER_BYTES;
    }

    long end() {
      return contentAt() + size;
    }

    String where() {
      return "in chunk '" + id + "' at byte " + headerAt;
    }
  }

  /** Real size of a chunk whose 32-bit size says to look elsewhere (ds64); else the 32-bit size. */
  @FunctionalInterface
  interface Sizes {
    long of(String id, long size32);
  }

  static final int HEADER_BYTES = 8;

  /** More chunks than any capture writes; bounds memory and time on a file of garbage. */
  static final int MAX_CHUNKS = 50_000;

  private final SideBytes file;
  private final boolean bigEndian;
  private final Sizes sizes;
  private final byte[] header = new byte[HEADER_BYTES];

  ChunkWalk(SideBytes file, boolean bigEndian, Sizes sizes) {
    this.file = file;
    this.bigEndian = bigEndian;
    this.sizes = sizes;
  }

  /** The chunk beginning here, or null when no chunk can: too few bytes or a name that is none. */
  Chunk at(long position) throws IOException {
    if (position + HEADER_BYTES > file.size()) {
      return null;
    }
    file.read(position, header, 0, HEADER_BYTES);
    for (int i = 0; i < 4; i++) {
      if (header[i] < 0x20 || header[i] > 0x7e) {
        return null;
      }
    }
    String id = new String(header, 0, 4, StandardCharsets.ISO_8859_1);
    long size32 = bigEndian ? Bytes.u32Big(header, 4) : Bytes.u32(header, 4);
    return new Chunk(id, position, size32, sizes.of(id, size32));
  }

  boolean fits(Chunk chunk) {
    return chunk.size >= 0 && chunk.size <= file.size() - chunk.contentAt();
  }

  /** Where the next chunk is to be looked for: behind the padding if there is any. */
  long next(Chunk chunk) throws IOException {
    long end = chunk.end();
    if ((chunk.size & 1) == 0) {
      return end;
    }
    return plausible(end + 1) || !plausible(end) ? Math.min(end + 1, file.size()) : end;
  }

  /**
   * The end of the file, a chunk that lies wholly in it, or the samples, whose size may be unknown.
   */
  boolean plausible(long position) throws IOException {
    if (position == file.size()) {
      return true;
    }
    Chunk chunk = position > file.size() ? null : at(position);
    return chunk != null && (fits(chunk) || chunk.id.equals(bigEndian ? "SSND" : "data"));
  }

  /** Whether nothing but whole chunks stands between here and the end of the file. */
  boolean onlyChunksFrom(long position) throws IOException {
    long at = position;
    for (int i = 0; i < MAX_CHUNKS; i++) {
      if (at == file.size()) {
        return true;
      }
      Chunk chunk = at(at);
      if (chunk == null || !fits(chunk)) {
        return false;
      }
      at = next(chunk);
    }
    return false;
  }

  /** What stands at a place where a chunk name should, for people. */
  String found(long position) throws IOException {
    long left = file.size() - position;
    if (left < HEADER_BYTES) {
      return "only " + left + " bytes left";
    }
    StringBuilder text = new StringBuilder("the bytes");
    for (byte b : file.bytes(position, 4)) {
      text.append(String.format(Locale.ROOT, " %02x", b & 0xff));
    }
    return text.toString();
  }
}
