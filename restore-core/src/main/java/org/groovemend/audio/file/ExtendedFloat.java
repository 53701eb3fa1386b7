package org.groovemend.audio.file;

import org.groovemend.audio.Words;

/** The 80-bit big-endian extended number in which AIFF keeps its sample rate. */
final class ExtendedFloat {

  static final int BYTES = 10;
  private static final int BIAS = 16_383;
  private static final int FRACTION_BITS = 63;

  private ExtendedFloat() {}

  /** The value, NaN for negative numbers, infinities and what is beyond any sample rate. */
  static double read(byte[] in, int at) {
    int exponent = Bytes.u16Big(in, at) - BIAS; // a set sign bit makes this huge
    long mantissa = Words.getBigEndian(in, at + 2, 8);
    if (mantissa == 0) {
      return 0;
    }
    if (exponent < 0 || exponent > 40) {
      return Double.NaN;
    }
    // exponent <= 40: the whole part has at most 41 bits; a fraction beyond 53 bits still shows as
    // one
    int fractionBits = FRACTION_BITS - exponent;
    long whole = mantissa >>> fractionBits;
    boolean fraction = mantissa << (64 - fractionBits) != 0;
    return whole + (fraction ? 0.5 : 0);
  }

  /** Writes a whole number from 1 to 2^31-1. */
  static void write(int value, byte[] out, int at) {
    int shift = Long.numberOfLeadingZeros(value);
    Words.putBigEndian(BIAS + FRACTION_BITS - shift, out, at, 2);
    Words.putBigEndian((long) value << shift, out, at + 2, 8);
  }
}
