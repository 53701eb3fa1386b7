package org.groovemend.audio.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.WavChunk;

/** Reads the chunks of a RIFF, RF64 or BW64 WAVE file once, in file order. */
final class WavParser extends ChunkParser {

  private static final int MAX_FMT_BYTES = 65_536;
  private static final long FOUR_GIB = 1L << 32;

  private final WavKind kind;
  private final List<WavChunk> chunks = new ArrayList<>();
  private Ds64 ds64;
  private byte[] fmtContent;
  private WavFormatChunk fmt;
  private WavDataSize data;
  private ChunkWalk.Chunk dataChunk;
  private long fact = -1;

  WavParser(SideBytes file) throws IOException {
    super(file, false, "data");
    byte[] head = file.bytes(0, FIRST_CHUNK);
    this.kind = WavKind.valueOf(Bytes.ascii(head, 0, 4));
    if (kind.large()) {
      ds64 = readDs64();
      announced(ds64.riffSize(), ds64.riffSize() == 0 || ds64.riffSize() == -1);
    } else {
      long riffSize = Bytes.u32(head, 4);
      announced(riffSize, ParsedSide.unset(riffSize));
    }
  }

  WavKind kind() {
    return kind;
  }

  ParsedSide parse() throws IOException {
    long at = takeAll();
    require(fmt, "fmt ", at);
    require(data, "data", at);
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

  @Override
  boolean complete() {
    return fmt != null && data != null;
  }

  @Override
  long take(ChunkWalk.Chunk chunk) throws IOException {
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
          chunk.where(), "a second 'fmt ' chunk differs from the first", ParsedSide.EXPORT_AGAIN);
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
    dataChunk = new ChunkWalk.Chunk(chunk.id(), chunk.headerAt(), chunk.size32(), data.size());
    if (data.notice() != null) {
      notices.add(data.notice());
    }
    parts.add("data " + data.size() + " bytes");
    chunks.add(WavChunk.samples());
    return data.notice() == null ? after(dataChunk) : walk.next(dataChunk);
  }

  private void addNotices(long end, long frames, int frameBytes) {
    noticeBrokenFrame(data.size(), frameBytes);
    if (fact > 0 && fact != Ds64.ELSEWHERE && fact != frames) {
      notices.add("The fact chunk counts " + fact + " frames, there are " + frames + ".");
    }
    if (kind == WavKind.RF64 && ds64.sampleCount() > 0 && ds64.sampleCount() != frames) {
      notices.add(
          "The ds64 chunk counts " + ds64.sampleCount() + " frames, there are " + frames + ".");
    }
    noticeRest(end);
    long expected = end - 8;
    boolean wrapped = !kind.large() && expected >= FOUR_GIB && announced() == expected % FOUR_GIB;
    if (!wrapped) {
      noticeWholeSize(end, kind.large() ? FIRST_CHUNK + 8 : 4);
    }
  }

  @Override
  long sizeOf(String id, long size32) {
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
