package org.groovemend.audio.file;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.WavChunk;

/**
 * Where everything stands in a WAV file about to be written; all sizes are known beforehand.
 *
 * @param head the first 12 bytes and, if large, the ds64 chunk
 * @param before chunks before the samples
 * @param dataHeader name and size of the data chunk
 * @param dataBytes bytes of samples
 * @param after chunks behind the samples
 * @param totalBytes length of the file
 */
record WavPlan(
    WavKind kind,
    byte[] head,
    List<WavChunk> before,
    byte[] dataHeader,
    long dataBytes,
    List<WavChunk> after,
    long totalBytes) {

  /**
   * A plain file may not be longer: its size field and this project's reader take 2^32-1 for "not
   * known".
   */
  static final long MAX_PLAIN_BYTES = 0xffff_ffffL;

  private static final int RIFF_HEADER = 12;

  static WavPlan of(AudioFormat format, long frames, List<WavChunk> chunks, WavKind original) {
    List<WavChunk> before = new ArrayList<>();
    List<WavChunk> after = new ArrayList<>();
    if (chunks.stream().noneMatch(c -> c.id().equals("fmt "))) {
      before.add(WavChunk.of("fmt ", WavFormatChunk.content(format)));
      if (format.coding() == SampleCoding.FLOAT
          && chunks.stream().noneMatch(c -> c.id().equals("fact"))) {
        byte[] fact = new byte[4];
        Bytes.put(fact, 0, Math.min(frames, Ds64.ELSEWHERE), 4);
        before.add(WavChunk.of("fact", fact));
      }
    }
    boolean passed = false;
    for (WavChunk chunk : chunks) {
      if (chunk.isSamples()) {
        if (passed) {
          throw new IllegalArgumentException("the chunks mark the place of the samples twice");
        }
        passed = true;
      } else if (!chunk.id().equals("ds64")) {
        (passed ? after : before).add(chunk);
      }
    }
    long dataBytes = frames * format.bytesPerFrame();
    long content = RIFF_HEADER + ChunkWalk.HEADER_BYTES + padded(dataBytes);
    List<Ds64.Entry> table = new ArrayList<>();
    for (List<WavChunk> part : List.of(before, after)) {
      for (WavChunk chunk : part) {
        content += ChunkWalk.HEADER_BYTES + padded(chunk.size());
        if (chunk.size() >= Ds64.ELSEWHERE) {
          table.add(new Ds64.Entry(chunk.id(), chunk.size()));
        }
      }
    }
    WavKind kind = original;
    if (kind == WavKind.RIFF && content > MAX_PLAIN_BYTES) {
      kind = WavKind.RF64;
    }
    long total = content;
    if (kind.large()) {
      total += ChunkWalk.HEADER_BYTES + Ds64.FIXED_BYTES + 12L * table.size();
    }
    return new WavPlan(
        kind,
        head(kind, total, new Ds64(total - 8, dataBytes, frames, table)),
        List.copyOf(before),
        header("data", kind.large() ? Ds64.ELSEWHERE : dataBytes),
        dataBytes,
        List.copyOf(after),
        total);
  }

  private static byte[] head(WavKind kind, long total, Ds64 ds64) {
    byte[] content = kind.large() ? ds64.content() : new byte[0];
    int ds64At = RIFF_HEADER;
    byte[] out = new byte[kind.large() ? ds64At + 8 + content.length : RIFF_HEADER];
    Bytes.put(out, 0, kind.name());
    Bytes.put(out, 4, kind.large() ? Ds64.ELSEWHERE : total - 8, 4);
    Bytes.put(out, 8, "WAVE");
    if (kind.large()) {
      System.arraycopy(header("ds64", content.length), 0, out, ds64At, 8);
      System.arraycopy(content, 0, out, ds64At + 8, content.length);
    }
    return out;
  }

  /** Name and 32-bit size of a chunk; a size beyond stands in ds64. */
  static byte[] header(String id, long size) {
    byte[] out = new byte[ChunkWalk.HEADER_BYTES];
    Bytes.put(out, 0, id);
    Bytes.put(out, 4, Math.min(size, Ds64.ELSEWHERE), 4);
    return out;
  }

  private static long padded(long size) {
    return size + (size & 1);
  }
}
