package org.groovemend.audio.flac;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.BufferOverflowException;
import java.nio.ByteOrder;
import java.util.Arrays;

/** Bits into a byte array that grows, up to 32 MiB and more, highest bit of a byte first. */
final class BitWriter {

  private static final VarHandle INTS =
      MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.BIG_ENDIAN);

  /** No frame comes to this; only a recipe made up to do so would. */
  private static final int MAX_BYTES = 1 << 25;

  private byte[] bytes;
  private int length;

  /**
   * The low {@code pendingBits} bits, at most 31 between calls, have not reached {@link #bytes}.
   */
  private long pending;

  private int pendingBits;

  BitWriter(int capacity) {
    bytes = new byte[Math.max(16, capacity)];
  }

  void clear() {
    length = 0;
    pending = 0;
    pendingBits = 0;
  }

  /** The low {@code count} bits of {@code value}, 0 to 32; higher bits of it are ignored. */
  void write(long value, int count) {
    pending = pending << count | value & (1L << count) - 1;
    pendingBits += count;
    if (pendingBits >= 32) {
      pendingBits -= 32;
      put((int) (pending >>> pendingBits));
    }
  }

  /** The low {@code count} bits of {@code value}, 0 to 64. */
  void writeWide(long value, int count) {
    if (count > 32) {
      write(value >>> 32, count - 32);
      write(value, 32);
    } else {
      write(value, count);
    }
  }

  void writeUnary(long zeros) {
    for (long left = zeros; left >= 32; left -= 32) {
      write(0, 32);
    }
    write(1, (int) (zeros & 31) + 1);
  }

  /** Residuals {@code from} to {@code to - 1} as Rice codes, RFC 9639 section 9.2.7.2. */
  void writeRice(int[] residual, int from, int to, int parameter) {
    long stop = 1L << parameter;
    for (int i = from; i < to; ) {
      i = writeShortCodes(residual, i, to, parameter);
      if (i < to) {
        // a code of more than 32 bits, or an array that is full
        long folded = (residual[i] << 1 ^ residual[i] >> 31) & 0xffffffffL;
        writeUnary(folded >>> parameter);
        write(folded & stop - 1, parameter);
        i++;
      }
    }
  }

  /**
   * Writes codes while they are at most 32 bits long and there is room; gives the index it came to.
   */
  private int writeShortCodes(int[] residual, int from, int to, int parameter) {
    byte[] out = bytes;
    int at = length;
    int room = out.length - 4;
    long acc = pending;
    int bits = pendingBits;
    long stop = 1L << parameter;
    int longest = 31 - parameter;
    int i = from;
    for (; i < to && at <= room; i++) {
      int r = residual[i];
      long folded = (r << 1 ^ r >> 31) & 0xffffffffL;
      long zeros = folded >>> parameter;
      if (zeros > longest) {
        break;
      }
      int count = (int) zeros + 1 + parameter;
      acc = acc << count | stop | folded & stop - 1;
      bits += count;
      if (bits >= 32) {
        bits -= 32;
        INTS.set(out, at, (int) (acc >>> bits));
        at += 4;
      }
    }
    length = at;
    pending = acc;
    pendingBits = bits;
    return i;
  }

  private void put(int four) {
    if (length + 4 > bytes.length) {
      if (length > MAX_BYTES) {
        throw new BufferOverflowException();
      }
      bytes = Arrays.copyOf(bytes, 2 * bytes.length);
    }
    INTS.set(bytes, length, four);
    length += 4;
  }

  /** Fills the last byte with zero bits and brings all bytes into the array. */
  void alignToByte() {
    int fill = -pendingBits & 7;
    write(0, fill);
    int left = pendingBits / 8;
    if (length + 4 + BitReader.SLACK > bytes.length) {
      bytes = Arrays.copyOf(bytes, 2 * bytes.length);
    }
    for (int i = left - 1; i >= 0; i--) {
      bytes[length++] = (byte) (pending >>> 8 * i);
    }
    pendingBits = 0;
  }

  /**
   * The array written to; after {@link #alignToByte()} it reaches {@link BitReader#SLACK} bytes
   * past the last one.
   */
  byte[] bytes() {
    return bytes;
  }

  /** Whole bytes in the array; all that was written after {@link #alignToByte()}. */
  int length() {
    return length;
  }
}
