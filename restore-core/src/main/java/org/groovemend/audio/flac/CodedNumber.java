package org.groovemend.audio.flac;

/**
 * The number of a frame or of its first sample in its header: up to 36 bits in 1 to 7 bytes, RFC
 * 9639 section 9.1.5.
 */
final class CodedNumber {

  static final int MAX_BYTES = 7;

  private CodedNumber() {}

  /** Bytes of the number that begins with {@code first}, 0 if none does. */
  static int length(byte first) {
    int ones = Integer.numberOfLeadingZeros(~(first << 24));
    if (ones == 0) {
      return 1;
    }
    return ones >= 2 && ones <= MAX_BYTES ? ones : 0;
  }

  /** The number at {@code at}, -1 if its bytes are not of the form. */
  static long get(byte[] bytes, int at) {
    int length = length(bytes[at]);
    if (length <= 1) {
      return length == 1 ? bytes[at] : -1;
    }
    long value = bytes[at] & 0x7f >> length;
    for (int i = 1; i < length; i++) {
      if ((bytes[at + i] & 0xc0) != 0x80) {
        return -1;
      }
      value = value << 6 | bytes[at + i] & 0x3f;
    }
    return value;
  }

  /** Writes {@code value} in as few bytes as can be and gives their count. */
  static int put(long value, byte[] out, int at) {
    if (value < 0x80) {
      out[at] = (byte) value;
      return 1;
    }
    int length = 2;
    while (length < MAX_BYTES && value >>> 5 * length + 1 != 0) {
      length++;
    }
    for (int i = length - 1; i > 0; i--) {
      out[at + i] = (byte) (0x80 | value >>> 6 * (length - 1 - i) & 0x3f);
    }
    out[at] = (byte) (0xff00 >> length | value >>> 6 * (length - 1));
    return length;
  }
}
