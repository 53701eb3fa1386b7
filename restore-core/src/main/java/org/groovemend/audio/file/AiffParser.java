package org.groovemend.audio.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.WavChunk;

/** Reads the chunks of an AIFF or AIFF-C file once, in file order. */
final class AiffParser {

  private static final int FIRST_CHUNK = 12;
  private static final int SSND_HEADER = 8;

  private final SideBytes file;
  private final boolean compressedForm;
  private final ChunkWalk walk;
  private final long formSize;
  private final List<String> parts = new ArrayList<>();
  private final List<String> notices = new ArrayList<>();
  private AiffCommonChunk comm;
  private ChunkWalk.Chunk ssnd;
  private long soundAt;
  private long soundBytes;
  private long blockSize;
  private boolean toTheEnd;
  private boolean restIsChunks;

  AiffParser(SideBytes file) throws IOException {
    this.file = file;
    byte[] head = file.bytes(0, FIRST_CHUNK);
    this.formSize = Bytes.u32Big(head, 4);
    this.compressedForm = Bytes.ascii(head, 8, 4).equals("AIFC");
    this.walk = new ChunkWalk(file, true, (id, size32) -> size32);
  }

  ParsedSide parse() throws IOException {
    long at = FIRST_CHUNK;
    while (at < file.size()) {
      ChunkWalk.Chunk chunk = walk.at(at);
      boolean mayStop = comm != null && ssnd != null;
      if (mayStop && pastTheWhole(at) && !onlyChunksFrom(at)) {
        break;
      }
      if (chunk == null || !chunk.id().equals("SSND") && !walk.fits(chunk)) {
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
    if (comm == null) {
      throw file.reject(
          "at byte " + at, "there is no 'COMM' chunk before the end", ParsedSide.COPY_OR_EXPORT);
    }
    if (ssnd == null) {
      throw file.reject(
          "at byte " + at, "there is no 'SSND' chunk before the end", ParsedSide.COPY_OR_EXPORT);
    }
    long frames = countFrames();
    addNotices(at);
    return new ParsedSide(
        compressedForm ? "AIFF-C (" + comm.coding().strip() + ")" : "AIFF",
        comm.format(),
        !comm.littleEndian(),
        soundAt,
        frames,
        List.copyOf(parts),
        List.copyOf(notices),
        List.of(WavChunk.samples()));
  }

  private long take(ChunkWalk.Chunk chunk) throws IOException {
    if (chunk.id().equals("SSND")) {
      return takeSound(chunk);
    }
    parts.add(chunk.id().strip() + " " + chunk.size() + " bytes");
    if (chunk.id().equals("COMM")) {
      if (comm != null) {
        throw file.reject(
            chunk.where(), "a second 'COMM' chunk", "export the transfer again");
      }
      int most = (int) Math.min(chunk.size(), AiffCommonChunk.MOST_BYTES);
      comm =
          AiffCommonChunk.parse(
              file, chunk.where(), file.bytes(chunk.contentAt(), most), compressedForm);
      notices.addAll(comm.notices());
    }
    return after(chunk);
  }

  private long after(ChunkWalk.Chunk chunk) throws IOException {
    long next = walk.next(chunk);
    if ((chunk.size() & 1) != 0 && next == chunk.end()) {
      notices.add(
          "The byte that pads chunk '" + chunk.id() + "' at byte " + chunk.headerAt()
              + " to an even size is missing.");
    }
    return next;
  }

  private long takeSound(ChunkWalk.Chunk chunk) throws IOException {
    if (ssnd != null) {
      throw file.reject(
          chunk.where(),
          "a second 'SSND' chunk, the first is at byte " + ssnd.headerAt(),
          "export the transfer again as one run of samples");
    }
    long left = file.size() - chunk.contentAt();
    // sox to a pipe writes 0x7f000000 less part of a frame, and 8 (read in files it wrote)
    long sox = 0x7f00_0008L - chunk.size();
    boolean empty = chunk.size() == 0 && walk.onlyChunksFrom(chunk.contentAt());
    toTheEnd =
        !empty
            && (ParsedSide.unset(chunk.size()) || chunk.size() > left && sox >= 0 && sox < 16);
    long size = toTheEnd ? left : chunk.size();
    if (size > left) {
      throw file.reject(
          chunk.where(),
          "the header announces " + size + " bytes of samples and the file ends after " + left,
          ParsedSide.COPY_AGAIN + ", or, if the capture itself ended early, set the size at byte "
              + (chunk.headerAt() + 4) + " to " + left + " in a copy");
    }
    if (size < SSND_HEADER) {
      throw empty(chunk);
    }
    byte[] head = file.bytes(chunk.contentAt(), SSND_HEADER);
    long offset = Bytes.u32Big(head, 0);
    blockSize = Bytes.u32Big(head, 4);
    if (offset > size - SSND_HEADER) {
      throw file.reject(
          chunk.where(),
          "the samples should begin after " + offset + " bytes, which lies outside the chunk",
          ParsedSide.COPY_OR_EXPORT);
    }
    soundAt = chunk.contentAt() + SSND_HEADER + offset;
    soundBytes = size - SSND_HEADER - offset;
    ssnd = new ChunkWalk.Chunk(chunk.id(), chunk.headerAt(), chunk.size32(), size);
    parts.add("SSND " + size + " bytes");
    if (toTheEnd) {
      notices.add(
          "The length of the samples was never filled in; they are taken to run to the end of the"
              + " file.");
      return file.size();
    }
    return after(ssnd);
  }

  private long countFrames() throws IOException {
    int frameBytes = comm.format().bytesPerFrame();
    long frames = soundBytes / frameBytes;
    long announced = comm.frames();
    long spare = soundBytes - announced * frameBytes;
    if (announced > 0 && spare >= 0 && spare < blockSize) {
      return announced; // the last block is filled up
    }
    if (frames == 0) {
      throw empty(ssnd);
    }
    if (announced != frames && !(toTheEnd && announced == 0)) {
      notices.add("The COMM chunk counts " + announced + " frames, there are " + frames + ".");
    }
    if (soundBytes % frameBytes != 0) {
      notices.add(
          "The samples end with " + soundBytes % frameBytes
              + " bytes that make no whole frame; they are kept but not heard.");
    }
    return frames;
  }

  private void addNotices(long end) {
    if (end < file.size()) {
      notices.add(
          "The last " + (file.size() - end) + " bytes, from byte " + end
              + " on, are no chunk; they are kept for the way back but not carried into a copy.");
    }
    long expected = end - 8;
    boolean counted =
        formSize == expected
            || formSize == expected - 1 && (end & 1) == 0
            || formSize == expected + 1 && (end & 1) != 0;
    if (!counted) {
      notices.add(
          "The size of the whole at byte 4"
              + (ParsedSide.unset(formSize) ? " was never filled in" : " says " + formSize)
              + ", the chunks make " + expected + ".");
    }
  }

  private InputRejectedException empty(ChunkWalk.Chunk chunk) {
    return file.reject(
        chunk.where(),
        "it holds no samples",
        "make the transfer again or give the file that holds the sound");
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
        "it claims " + chunk.size() + " bytes and " + (file.size() - chunk.contentAt())
            + " are left in the file",
        ParsedSide.COPY_OR_EXPORT);
  }

  private boolean pastTheWhole(long at) {
    return !ParsedSide.unset(formSize) && at - 8 >= formSize;
  }

  private boolean onlyChunksFrom(long at) throws IOException {
    restIsChunks = restIsChunks || walk.onlyChunksFrom(at);
    return restIsChunks;
  }
}
