package org.groovemend.audio.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * Whether a file is as long as its header says, told from the header alone: a capture program that
 * has not finished leaves lengths that are not filled in, or that lag behind what is written; a
 * copy under way is shorter than its header says.
 *
 * @param fit how the two compare
 * @param words for people, after the name of the file: "the header ..."
 */
public record AnnouncedLength(Fit fit, String words) {

  /** How a header and its file compare. */
  public enum Fit {
    /** As long as it says. */
    FITS,
    /** The header does not say, as while a file is written. */
    UNSET,
    /** The header says more than there is. */
    SHORTER,
    /** There is more than the header says. */
    LONGER,
    /** There is no header of a side, or not yet. */
    NO_HEADER
  }

  private static final int FIRST_CHUNK = 12;
  private static final long FOUR_GIB = 1L << 32;

  /** Of fLaC, the header of the first block and STREAMINFO, RFC 9639 section 8. */
  private static final int FLAC_HEAD = 4 + 4 + 34;

  private static final AnnouncedLength FITTING =
      new AnnouncedLength(Fit.FITS, "the header says how long it is");

  /**
   * Reads the header and lets go of the file at once.
   *
   * @throws IOException if the file is gone or cannot be read
   */
  public static AnnouncedLength of(Path path) throws IOException {
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      SideBytes file = new SideBytes(path, channel);
      if (file.size() < FIRST_CHUNK) {
        return new AnnouncedLength(Fit.NO_HEADER, "it has only " + file.size() + " bytes yet");
      }
      byte[] head = file.bytes(0, FIRST_CHUNK);
      String first = Bytes.ascii(head, 0, 4);
      String second = Bytes.ascii(head, 8, 4);
      if (first.equals("fLaC")) {
        return flac(file);
      }
      boolean wave = second.equals("WAVE");
      if (wave && (first.equals("RIFF") || first.equals("RF64") || first.equals("BW64"))) {
        return chunks(file, false, !first.equals("RIFF"), Bytes.u32(head, 4));
      }
      if (first.equals("FORM") && (second.equals("AIFF") || second.equals("AIFC"))) {
        return chunks(file, true, false, Bytes.u32Big(head, 4));
      }
      return new AnnouncedLength(Fit.NO_HEADER, "it does not begin like WAV, AIFF or FLAC");
    }
  }

  /**
   * @param large whether the sizes are in a ds64 chunk
   */
  private static AnnouncedLength chunks(
      SideBytes file, boolean bigEndian, boolean large, long size32) throws IOException {
    Ds64 ds64 = large ? ds64(file) : null;
    if (large && ds64 == null) {
      return new AnnouncedLength(Fit.NO_HEADER, "its chunk of 64-bit sizes is not there yet");
    }
    long whole = ds64 == null ? size32 : ds64.riffSize();
    boolean unset =
        ds64 == null
            ? ParsedSide.unset(size32) || whole + 8 > file.size() && WavDataSize.placeholder(size32)
            : whole == 0 || whole == -1;
    if (unset) {
      return new AnnouncedLength(Fit.UNSET, "the header does not say yet how long it is");
    }
    long end = whole + 8;
    if (ds64 == null && file.size() >= FOUR_GIB) {
      // the field holds the low 32 bits
      end += (file.size() - end) / FOUR_GIB * FOUR_GIB;
    }
    AnnouncedLength sound = sound(file, bigEndian, ds64);
    return sound != null ? sound : compared(file.size(), end);
  }

  private static AnnouncedLength compared(long size, long end) {
    // the byte that pads an odd chunk is counted by some and not by others
    if (Math.abs(size - end) <= 1) {
      return FITTING;
    }
    return new AnnouncedLength(
        size < end ? Fit.SHORTER : Fit.LONGER,
        "the header says " + end + " bytes and there are " + size);
  }

  /** What the chunk of the samples says against it, or null. */
  private static AnnouncedLength sound(SideBytes file, boolean bigEndian, Ds64 ds64)
      throws IOException {
    String id = bigEndian ? "SSND" : "data";
    ChunkWalk walk =
        new ChunkWalk(
            file,
            bigEndian,
            (name, size) -> ds64 != null && size == Ds64.ELSEWHERE ? ds64.sizeOf(name) : size);
    long at = FIRST_CHUNK;
    for (int i = 0; i < ChunkWalk.MAX_CHUNKS; i++) {
      ChunkWalk.Chunk chunk = walk.at(at);
      if (chunk == null) {
        return new AnnouncedLength(Fit.NO_HEADER, "its header has no chunk of samples yet");
      }
      long left = file.size() - chunk.contentAt();
      if (chunk.id().equals(id)) {
        boolean unset = ParsedSide.unset(chunk.size()) || chunk.size() == -1;
        if (unset && !(chunk.size() == 0 && walk.onlyChunksFrom(chunk.contentAt()) && left > 0)) {
          return new AnnouncedLength(
              Fit.UNSET, "the header does not say yet how many samples there are");
        }
        boolean wrapped = ds64 == null && left >= FOUR_GIB;
        return wrapped || chunk.size() <= left
            ? null
            : new AnnouncedLength(
                Fit.SHORTER,
                "the header says "
                    + Long.toUnsignedString(chunk.size())
                    + " bytes of samples and there are "
                    + left);
      }
      if (!walk.fits(chunk)) {
        return new AnnouncedLength(
            Fit.SHORTER, "it ends within chunk '" + chunk.id().strip() + "'");
      }
      at = walk.next(chunk);
    }
    return null;
  }

  private static Ds64 ds64(SideBytes file) throws IOException {
    ChunkWalk walk = new ChunkWalk(file, false, (id, size) -> size);
    ChunkWalk.Chunk chunk = walk.at(FIRST_CHUNK);
    boolean there =
        chunk != null
            && chunk.id().equals("ds64")
            && chunk.size() >= Ds64.MIN_BYTES
            && walk.fits(chunk);
    return there ? Ds64.parse(file.bytes(chunk.contentAt(), Ds64.MIN_BYTES)) : null;
  }

  private static AnnouncedLength flac(SideBytes file) throws IOException {
    if (file.size() < FLAC_HEAD) {
      return new AnnouncedLength(Fit.NO_HEADER, "it has only " + file.size() + " bytes yet");
    }
    byte[] head = file.bytes(0, FLAC_HEAD);
    // 36 bits behind rate, channels and depth
    long frames = (head[8 + 13] & 0xfL) << 32 | Bytes.u32Big(head, 8 + 14);
    return frames == 0
        ? new AnnouncedLength(Fit.UNSET, "the header does not say yet how many samples there are")
        : FITTING;
  }
}
