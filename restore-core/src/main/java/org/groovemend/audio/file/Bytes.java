package org.groovemend.audio.file;

import java.nio.charset.StandardCharsets;
import org.groovemend.audio.Words;

/** Unsigned numbers and names in headers. */
final class Bytes {

  private Bytes() {}

  static int u16(byte[] in, int at) {
    return in[at] & 0xff | (in[at + 1] & 0xff) << 8;
  }

  static long u32(byte[] in, int at) {
    return Words.getLittleEndian(in, at, 4) & 0xffff_ffffL;
  }

  /** A 64-bit size; negative means beyond 2^63, which no file reaches. */
  static long i64(byte[] in, int at) {
    return Words.getLittleEndian(in, at, 8);
  }

  static int u16Big(byte[] in, int at) {
    return (in[at] & 0xff) << 8 | in[at + 1] & 0xff;
  }

  static long u32Big(byte[] in, int at) {
    return Words.getBigEndian(in, at, 4) & 0xffff_ffffL;
  }

  static String ascii(byte[] in, int at, int count) {
    return new String(in, at, count, StandardCharsets.ISO_8859_1);
  }

  static void put(byte[] out, int at, long value, int bytes) {
    Words.putLittleEndian(value, out, at, bytes);
  }

  static void put(byte[] out, int at, String ascii) {
    byte[] text = ascii.getBytes(StandardCharsets.ISO_8859_1);
    System.arraycopy(text, 0, out, at, text.length);
  }
}
