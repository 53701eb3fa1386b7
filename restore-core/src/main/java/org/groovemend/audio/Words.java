package org.groovemend.audio;

/**
 * Sample words to doubles and back, and word arithmetic.
 *
 * <p>A double holds every PCM code up to 32 bits and every 32-bit float exactly, so word, double,
 * word returns the word.
 */
public final class Words {

  private Words() {}

  /**
   * The sample on the scale where full scale is 1.0; may be NaN or infinite for float words that
   * are.
   */
  public static double toDouble(long word, AudioFormat format) {
    if (format.coding() == SampleCoding.PCM) {
      return word * (1.0 / (1L << (format.containerBits() - 1)));
    }
    return format.containerBits() == 32
        ? Float.intBitsToFloat((int) word)
        : Double.longBitsToDouble(word);
  }

  /** Converts {@code count} words from {@code offset} on to doubles at {@code outOffset}. */
  public static void toDoubles(
      long[] words, int offset, double[] out, int outOffset, int count, AudioFormat format) {
    if (format.coding() == SampleCoding.PCM) {
      double scale = 1.0 / (1L << (format.containerBits() - 1));
      for (int i = 0; i < count; i++) {
        out[outOffset + i] = words[offset + i] * scale;
      }
    } else {
      for (int i = 0; i < count; i++) {
        out[outOffset + i] = toDouble(words[offset + i], format);
      }
    }
  }

  /** The word of a float format that holds {@code value}, rounded to nearest for 32 bits. */
  public static long floatWord(double value, AudioFormat format) {
    return format.containerBits() == 32
        ? Float.floatToRawIntBits((float) value)
        : Double.doubleToRawLongBits(value);
  }

  /** {@code a - b} modulo 2^bits, sign-extended: the word of the difference signal. */
  public static long minus(long a, long b, int bits) {
    return signExtend(a - b, bits);
  }

  /** {@code a + b} modulo 2^bits, sign-extended: the word rebuilt from restored and removed. */
  public static long plus(long a, long b, int bits) {
    return signExtend(a + b, bits);
  }

  public static long signExtend(long value, int bits) {
    int shift = 64 - bits;
    return value << shift >> shift;
  }

  /**
   * Writes {@code bytes} low-order bytes of a word, little end first; used for files and for
   * digests.
   */
  public static void putLittleEndian(long word, byte[] out, int offset, int bytes) {
    for (int i = 0; i < bytes; i++) {
      out[offset + i] = (byte) (word >>> (8 * i));
    }
  }

  public static long getLittleEndian(byte[] in, int offset, int bytes) {
    long value = in[offset + bytes - 1];
    for (int i = bytes - 2; i >= 0; i--) {
      value = value << 8 | in[offset + i] & 0xff;
    }
    return value;
  }

  public static void putBigEndian(long word, byte[] out, int offset, int bytes) {
    for (int i = 0; i < bytes; i++) {
      out[offset + i] = (byte) (word >>> (8 * (bytes - 1 - i)));
    }
  }

  public static long getBigEndian(byte[] in, int offset, int bytes) {
    long value = in[offset];
    for (int i = 1; i < bytes; i++) {
      value = value << 8 | in[offset + i] & 0xff;
    }
    return value;
  }
}
