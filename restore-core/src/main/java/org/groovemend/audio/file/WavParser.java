package org.groovemend.audio.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.WavChunk;

/** Reads the chunks of a RIFF, RF64 or BW64 WAVE file once, in file order. */
final class WavParser {

  private static final int FIRST_CHUNK = 12;
  private static final int MAX_FMT_BYTES = 65_536;
  private static final long FOUR_GIB = 1L << 32;

  private final SideBytes file;
  private final WavKind kind;
  private final ChunkWalk walk;
  private final long riffSize;
  private final boolean riffSizeUnset;
  private final List<String> parts = new ArrayList<>();
  private final List<String> notices = new ArrayList<>();
  private final List<WavChunk> chunks = new ArrayList<>();
  private Ds64 ds64;
  private byte[] fmtContent;
  private WavFormatChunk fmt;
  private WavDataSize data;
  private ChunkWalk.Chunk dataChunk;
  private long fact = -1;
  private boolean restIsChunks;

  WavParser(SideBytes file) throws IOException {
    this.file = file;
    byte[] head = file.bytes(0, FIRST_CHUNK);
    this.kind = WavKind.valueOf(Bytes.ascii(head, 0, 4));
    this.walk = new ChunkWalk(file, false, this::sizeOf);
    if (kind.large()) {
      ds64 = readDs64();
      riffSize = ds64.riffSize();
      riffSizeUnset = riffSize == 0 || riffSize == -1;
    } else {
      riffSize = Bytes.u32(head, 4);
      riffSizeUnset = ParsedSide.unset(riffSize);
    }
  }

  WavKind kind() {
    return kind;
  }

  ParsedSide parse() throws IOException {
    long at = FIRST_CHUNK;
    while (at < file.size()) {
      ChunkWalk.Chunk chunk = walk.at(at);
      boolean mayStop = fmt != null && data != null;
      if (mayStop && pastTheWhole(at) && !onlyChunksFrom(at)) {
        break;
      }
      if (chunk == null || !chunk.id().equals("data") && !walk.fits(chunk)) {
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
    if (fmt == null) {
      throw file.reject(
          "at byte " + at, "there is no 'fmt ' chunk before the end", ParsedSide.COPY_OR_EXPORT);
    }
    if (data == null) {
      throw file.reject(
          "at byte " + at, "there is no 'data' chunk before the end", ParsedSide.COPY_OR_EXPORT);
    }
    int frameBytes = fmt.format().bytesPerFrame();
    long frames = data.size() / frameBytes;
    if (frames == 0) {
      throw file.reject(
          dataChunk.where(),
          "it holds no " + (data.size() > 0 ? "whole frame" : "samples"),
          "make the transfer again or give the file that holds the sound");
    }
    addNotices(at, frames, frameBytes);
    return new ParsedSide(
        kind.title() + (fmt.extensible() ? " (extensible)" : ""),
        fmt.format(),
        false,
        dataChunk.contentAt(),
        frames,
        List.copyOf(parts),
        List.copyOf(notices),
        List.copyOf(chunks));
  }

  /** Takes a chunk in and says where the next one begins. */
  private long take(ChunkWalk.Chunk chunk) throws IOException {
    if (chunk.id().equals("data")) {
      return takeData(chunk);
    }
    parts.add(chunk.id().strip() + " " + chunk.size() + " bytes");
    if (chunk.id().equals("fmt ")) {
      takeFmt(chunk);
    } else if (chunk.id().equals("fact") && chunk.size() >= 4 && fact < 0) {
      fact = Bytes.u32(file.bytes(chunk.contentAt(), 4), 0);
    }
    if (!chunk.id().equals("ds64")) {
      chunks.add(new WavChunk(chunk.id(), chunk.contentAt(), chunk.size(), null));
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

  private void takeFmt(ChunkWalk.Chunk chunk) throws IOException {
    if (chunk.size() > MAX_FMT_BYTES) {
      throw file.reject(
          chunk.where(), "it claims " + chunk.size() + " bytes", ParsedSide.COPY_OR_EXPORT);
    }
    byte[] content = file.bytes(chunk.contentAt(), (int) chunk.size());
    if (fmtContent == null) {
      fmtContent = content;
      fmt = WavFormatChunk.parse(file, chunk.where(), content);
      notices.addAll(fmt.notices());
    } else if (Arrays.equals(fmtContent, content)) {
      notices.add("The fmt chunk stands twice, both times the same.");
    } else {
      throw file.reject(
          chunk.where(),
          "a second 'fmt ' chunk differs from the first",
          ParsedSide.EXPORT_AGAIN);
    }
  }

  private long takeData(ChunkWalk.Chunk chunk) throws IOException {
    if (data != null) {
      throw file.reject(
          chunk.where(),
          "a second 'data' chunk, the first is at byte " + dataChunk.headerAt(),
          "export the transfer again as one run of samples");
    }
    data = WavDataSize.resolve(file, walk, chunk, ds64);
    dataChunk =
        new ChunkWalk.Chunk(chunk.id(), chunk.headerAt(), chunk.size32(), data.size());
    if (data.notice() != null) {
      notices.add(data.notice());
    }
    parts.add("data " + data.size() + " bytes");
    chunks.add(WavChunk.samples());
    return data.notice() == null ? after(dataChunk) : walk.next(dataChunk);
  }

  private void addNotices(long end, long frames, int frameBytes) throws IOException {
    if (data.size() % frameBytes != 0) {
      notices.add(
          "The samples end with " + data.size() % frameBytes
              + " bytes that make no whole frame; they are kept but not heard.");
    }
    if (fact > 0 && fact != Ds64.ELSEWHERE && fact != frames) {
      notices.add("The fact chunk counts " + fact + " frames, there are " + frames + ".");
    }
    if (kind == WavKind.RF64
        && ds64.sampleCount() > 0
        && ds64.sampleCount() != frames) {
      notices.add(
          "The ds64 chunk counts " + ds64.sampleCount() + " frames, there are " + frames + ".");
    }
    if (end < file.size()) {
      notices.add(
          "The last " + (file.size() - end) + " bytes, from byte " + end
              + " on, are no chunk; they are kept for the way back but not carried into a copy.");
    }
    long expected = end - 8;
    boolean counted =
        riffSize == expected
            || riffSize == expected - 1 && (end & 1) == 0 // the last padding not counted
            || riffSize == expected + 1 && (end & 1) != 0 // the last padding counted but missing
            || !kind.large() && expected >= FOUR_GIB && riffSize == expected % FOUR_GIB;
    if (!counted) {
      notices.add(
          "The size of the whole at byte "
              + (kind.large() ? FIRST_CHUNK + 8 : 4)
              + (riffSizeUnset ? " was never filled in" : " says " + Long.toUnsignedString(riffSize))
              + ", the chunks make " + expected + ".");
    }
  }

  private boolean pastTheWhole(long at) {
    return !riffSizeUnset && at - 8 >= riffSize;
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
        "it claims " + Long.toUnsignedString(chunk.size()) + " bytes and "
            + (file.size() - chunk.contentAt()) + " are left in the file",
        ParsedSide.COPY_OR_EXPORT);
  }

  private long sizeOf(String id, long size32) {
    return ds64 != null && size32 == Ds64.ELSEWHERE ? ds64.sizeOf(id) : size32;
  }

  private Ds64 readDs64() throws IOException {
    ChunkWalk.Chunk chunk = file.size() > FIRST_CHUNK ? walk.at(FIRST_CHUNK) : null;
    if (chunk == null || !chunk.id().equals("ds64")) {
      throw file.reject(
          "at byte 12",
          "the 'ds64' chunk that gives an " + kind + " file its sizes is not there",
          ParsedSide.COPY_OR_EXPORT);
    }
    long most = Ds64.FIXED_BYTES + 12L * Ds64.MAX_ENTRIES;
    if (chunk.size() < Ds64.MIN_BYTES || !walk.fits(chunk)) {
      throw file.reject(
          chunk.where(),
          "its size is given as " + chunk.size() + " bytes, which cannot be",
          ParsedSide.COPY_OR_EXPORT);
    }
    return Ds64.parse(file.bytes(chunk.contentAt(), (int) Math.min(most, chunk.size())));
  }
}
