package org.groovemend.audio.flac;

/**
 * The two checksums of a frame, RFC 9639 sections 9.1.8 and 9.3: CRC-8 with x^8 + x^2 + x + 1 over
 * the header, CRC-16 with x^16 + x^15 + x^2 + 1 over the whole frame. Both start at 0, highest bit
 * first, nothing inverted.
 */
final class FrameCrc {

  private static final int POLYNOMIAL_8 = 0x07;
  private static final int POLYNOMIAL_16 = 0x8005;

  private static final byte[] TABLE_8 = new byte[256];

  /** Entry {@code 256 * z + b}: remainder of byte b followed by z zero bytes. */
  private static final char[] TABLE_16 = new char[16 * 256];

  static {
    for (int b = 0; b < 256; b++) {
      int r8 = b;
      int r16 = b << 8;
      for (int i = 0; i < 8; i++) {
        r8 = r8 << 1 ^ ((r8 & 0x80) != 0 ? POLYNOMIAL_8 : 0);
        r16 = r16 << 1 ^ ((r16 & 0x8000) != 0 ? POLYNOMIAL_16 : 0);
      }
      TABLE_8[b] = (byte) r8;
      TABLE_16[b] = (char) r16;
    }
    for (int i = 256; i < TABLE_16.length; i++) {
      int before = TABLE_16[i - 256];
      TABLE_16[i] = (char) (before << 8 ^ TABLE_16[before >>> 8]);
    }
  }

  private FrameCrc() {}

  static int crc8(byte[] bytes, int from, int to) {
    int crc = 0;
    for (int i = from; i < to; i++) {
      crc = TABLE_8[(crc ^ bytes[i]) & 0xff];
    }
    return crc & 0xff;
  }

  /** Sixteen bytes a step: byte i of a group is followed by 15 - i others. */
  static int crc16(byte[] bytes, int from, int to) {
    int crc = 0;
    int i = from;
    for (; i + 16 <= to; i += 16) {
      long first = (long) BitReader.LONGS.get(bytes, i) ^ (long) crc << 48;
      long second = (long) BitReader.LONGS.get(bytes, i + 8);
      crc = remainder(first, 8 * 256) ^ remainder(second, 0);
    }
    for (; i < to; i++) {
      crc = crc << 8 & 0xffff ^ TABLE_16[crc >>> 8 ^ bytes[i] & 0xff];
    }
    return crc;
  }

  private static int remainder(long eight, int table) {
    return TABLE_16[table + 7 * 256 + (int) (eight >>> 56)]
        ^ TABLE_16[table + 6 * 256 + (int) (eight >>> 48 & 0xff)]
        ^ TABLE_16[table + 5 * 256 + (int) (eight >>> 40 & 0xff)]
        ^ TABLE_16[table + 4 * 256 + (int) (eight >>> 32 & 0xff)]
        ^ TABLE_16[table + 3 * 256 + (int) (eight >>> 24 & 0xff)]
        ^ TABLE_16[table + 2 * 256 + (int) (eight >>> 16 & 0xff)]
        ^ TABLE_16[table + 256 + (int) (eight >>> 8 & 0xff)]
        ^ TABLE_16[table + (int) (eight & 0xff)];
  }
}
