package org.groovemend.audio.flac;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/**
 * Bits of a byte array, highest bit of a byte first.
 *
 * <p>Reads eight bytes at a time, so the array must reach {@link #SLACK} bytes past the last byte
 * that may be read; what stands there does not matter.
 */
final class BitReader {

  static final int SLACK = 8;

  /** Bits that one load surely holds, whatever the position within its first byte. */
  static final int LOAD_BITS = 57;

  static final VarHandle LONGS =
      MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.BIG_ENDIAN);

  byte[] bytes;
  long position;
  long end;

  /** Reads bytes {@code from} to {@code to - 1}. */
  void set(byte[] bytes, int from, int to) {
    if (to + SLACK > bytes.length) {
      throw new IllegalArgumentException("the array ends " + SLACK + " bytes or less after " + to);
    }
    this.bytes = bytes;
    position = 8L * from;
    end = 8L * to;
  }

  /** The next 57 bits or more at the top of a long; rubbish beyond the end. */
  static long load(byte[] bytes, long position) {
    return (long) LONGS.get(bytes, (int) (position >>> 3)) << (position & 7);
  }

  /** {@code count} bits, 0 to 57, unsigned. */
  long read(int count) throws DamagedFrameException {
    require(count);
    long value = load(bytes, position) >>> 1 >>> 63 - count;
    position += count;
    return value;
  }

  /** {@code count} bits, 0 to 57, two's complement. */
  long readSigned(int count) throws DamagedFrameException {
    require(count);
    long value = count == 0 ? 0 : load(bytes, position) >> 64 - count;
    position += count;
    return value;
  }

  /** The number of zero bits before the next one bit, which is taken too. */
  long readUnary() throws DamagedFrameException {
    long zeros = 0;
    while (true) {
      require(1);
      int run = Long.numberOfLeadingZeros(load(bytes, position));
      if (run < LOAD_BITS) {
        require(run + 1);
        position += run + 1;
        return zeros + run;
      }
      zeros += LOAD_BITS;
      position += LOAD_BITS;
    }
  }

  /** Goes on to the next whole byte and gives its index. */
  int alignToByte() {
    position = position + 7 & ~7L;
    return (int) (position >>> 3);
  }

  private void require(int count) throws DamagedFrameException {
    if (position + count > end) {
      throw DamagedFrameException.endOfBytes();
    }
  }
}
