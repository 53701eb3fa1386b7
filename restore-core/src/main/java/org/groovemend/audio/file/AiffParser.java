package org.groovemend.audio.file;

import java.io.IOException;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.WavChunk;

/** Reads the chunks of an AIFF or AIFF-C file once, in file order. */
final class AiffParser extends ChunkParser {

  private static final int SSND_HEADER = 8;

  private final boolean compressedForm;
  private AiffCommonChunk comm;
  private ChunkWalk.Chunk ssnd;
  private long soundAt;
  private long soundBytes;
  private long blockSize;
  private boolean toTheEnd;

  AiffParser(SideBytes file) throws IOException {
    super(file, true, "SSND");
    byte[] head = file.bytes(0, FIRST_CHUNK);
    long formSize = Bytes.u32Big(head, 4);
    announced(formSize, ParsedSide.unset(formSize));
    this.compressedForm = Bytes.ascii(head, 8, 4).equals("AIFC");
  }

  ParsedSide parse() throws IOException {
    long at = takeAll();
    require(comm, "COMM", at);
    require(ssnd, "SSND", at);
    long frames = countFrames();
    noticeRest(at);
    noticeWholeSize(at, 4);
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

  @Override
  boolean complete() {
    return comm != null && ssnd != null;
  }

  @Override
  long take(ChunkWalk.Chunk chunk) throws IOException {
    if (chunk.id().equals("SSND")) {
      return takeSound(chunk);
    }
    parts.add(chunk.id().strip() + " " + chunk.size() + " bytes");
    if (chunk.id().equals("COMM")) {
      if (comm != null) {
        throw file.reject(chunk.where(), "a second 'COMM' chunk", "export the transfer again");
      }
      int most = (int) Math.min(chunk.size(), AiffCommonChunk.MOST_BYTES);
      comm =
          AiffCommonChunk.parse(
              file, chunk.where(), file.bytes(chunk.contentAt(), most), compressedForm);
      notices.addAll(comm.notices());
    }
    return after(chunk);
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
        !empty && (ParsedSide.unset(chunk.size()) || chunk.size() > left && sox >= 0 && sox < 16);
    long size = toTheEnd ? left : chunk.size();
    if (size > left) {
      throw file.reject(
          chunk.where(),
          "the header announces " + size + " bytes of samples and the file ends after " + left,
          ParsedSide.COPY_AGAIN
              + ", or, if the capture itself ended early, set the size at byte "
              + (chunk.headerAt() + 4)
              + " to "
              + left
              + " in a copy");
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
    noticeBrokenFrame(soundBytes, frameBytes);
    return frames;
  }

  private InputRejectedException empty(ChunkWalk.Chunk chunk) {
    return file.reject(
        chunk.where(),
        "it holds no samples",
        "make the transfer again or give the file that holds the sound");
  }
}
