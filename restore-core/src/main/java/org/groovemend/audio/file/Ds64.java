package org.groovemend.audio.file;

import java.util.ArrayList;
import java.util.List;

/**
 * The ds64 chunk of RF64 and BW64: sizes that do not fit 32 bits.
 *
 * @param riffSize bytes of the file after the first eight
 * @param dataSize bytes of samples; 0 or -1 when never filled in
 * @param sampleCount frames; without meaning in BW64
 * @param table sizes of other chunks
 * @see <a href="https://tech.ebu.ch/docs/tech/tech3306.pdf">EBU Tech 3306</a>
 */
record Ds64(long riffSize, long dataSize, long sampleCount, List<Entry> table) {

  record Entry(String id, long size) {}

  /** The value of a 32-bit size that means: look into ds64. */
  static final long ELSEWHERE = 0xffff_ffffL;

  static final int MIN_BYTES = 24;
  static final int FIXED_BYTES = 28;
  private static final int ENTRY_BYTES = 12;

  /** More entries than chunks over 4 GiB can be; the rest is reserve space. */
  static final int MAX_ENTRIES = 1024;

  /**
   * Reads the content, which is at least {@link #MIN_BYTES} long; entries past its end are not
   * there.
   */
  static Ds64 parse(byte[] content) {
    List<Entry> table = new ArrayList<>();
    if (content.length >= FIXED_BYTES) {
      long entries = Bytes.u32(content, 24);
      int at = FIXED_BYTES;
      for (long i = 0; i < entries && at + ENTRY_BYTES <= content.length; i++, at += ENTRY_BYTES) {
        table.add(new Entry(Bytes.ascii(content, at, 4), Bytes.i64(content, at + 4)));
      }
    }
    return new Ds64(
        Bytes.i64(content, 0), Bytes.i64(content, 8), Bytes.i64(content, 16), List.copyOf(table));
  }

  boolean dataSizeUnset() {
    return dataSize == 0 || dataSize == -1;
  }

  /**
   * Size of a chunk whose own size points here; several chunks of one name share the first entry.
   */
  long sizeOf(String id) {
    if (id.equals("data")) {
      return dataSize;
    }
    for (Entry entry : table) {
      if (entry.id.equals(id)) {
        return entry.size;
      }
    }
    return ELSEWHERE;
  }

  byte[] content() {
    byte[] out = new byte[FIXED_BYTES + ENTRY_BYTES * table.size()];
    Bytes.put(out, 0, riffSize, 8);
    Bytes.put(out, 8, dataSize, 8);
    Bytes.put(out, 16, sampleCount, 8);
    Bytes.put(out, 24, table.size(), 4);
    int at = FIXED_BYTES;
    for (Entry entry : table) {
      Bytes.put(out, at, entry.id);
      Bytes.put(out, at + 4, entry.size, 8);
      at += ENTRY_BYTES;
    }
    return out;
  }
}
