package org.groovemend.audio.file;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import org.groovemend.audio.AudioFormat;

/**
 * Interleaved sample bytes to words by channel and back. One tight loop for each width; the byte
 * order is settled by a test that does not change within a loop. {@code SampleDigest} and the
 * property tests hold the slow obvious form.
 */
final class WordBytes {

  private static final VarHandle SHORTS = view(short[].class);
  private static final VarHandle INTS = view(int[].class);
  private static final VarHandle LONGS = view(long[].class);

  private WordBytes() {}

  private static VarHandle view(Class<?> array) {
    return MethodHandles.byteArrayViewVarHandle(array, ByteOrder.LITTLE_ENDIAN);
  }

  /** Reads {@code frames} frames at {@code at} into {@code into[channel][offset...]}. */
  static void decode(
      byte[] in, int at, int frames, AudioFormat format, boolean big, long[][] into, int offset) {
    int step = format.bytesPerFrame();
    for (int c = 0; c < format.channels(); c++) {
      int from = at + c * format.bytesPerSample();
      long[] out = into[c];
      switch (format.bytesPerSample()) {
        case 2 -> decode16(in, from, step, big, out, offset, frames);
        case 3 -> decode24(in, from, step, big, out, offset, frames);
        case 4 -> decode32(in, from, step, big, out, offset, frames);
        default -> decode64(in, from, step, big, out, offset, frames);
      }
    }
  }

  /** Writes {@code frames} frames from {@code words[channel][offset...]} at {@code at}. */
  static void encode(
      long[][] words, int offset, int frames, AudioFormat format, boolean big, byte[] out, int at) {
    int step = format.bytesPerFrame();
    for (int c = 0; c < format.channels(); c++) {
      int to = at + c * format.bytesPerSample();
      long[] in = words[c];
      switch (format.bytesPerSample()) {
        case 2 -> encode16(in, offset, frames, big, out, to, step);
        case 3 -> encode24(in, offset, frames, big, out, to, step);
        case 4 -> encode32(in, offset, frames, big, out, to, step);
        default -> encode64(in, offset, frames, big, out, to, step);
      }
    }
  }

  private static void decode16(
      byte[] in, int from, int step, boolean big, long[] out, int offset, int n) {
    for (int i = 0, at = from; i < n; i++, at += step) {
      short v = (short) SHORTS.get(in, at);
      out[offset + i] = big ? Short.reverseBytes(v) : v;
    }
  }

  private static void decode24(
      byte[] in, int from, int step, boolean big, long[] out, int offset, int n) {
    // four bytes at once, the fourth of what follows: the last word of an array has none
    int at = from;
    int i = 0;
    for (; i < n && at + Integer.BYTES <= in.length; i++, at += step) {
      int v = (int) INTS.get(in, at);
      out[offset + i] = big ? Integer.reverseBytes(v) >> 8 : v << 8 >> 8;
    }
    int low = big ? 2 : 0;
    int high = 2 - low;
    for (; i < n; i++, at += step) {
      out[offset + i] = in[at + low] & 0xff | (in[at + 1] & 0xff) << 8 | in[at + high] << 16;
    }
  }

  private static void decode32(
      byte[] in, int from, int step, boolean big, long[] out, int offset, int n) {
    for (int i = 0, at = from; i < n; i++, at += step) {
      int v = (int) INTS.get(in, at);
      out[offset + i] = big ? Integer.reverseBytes(v) : v;
    }
  }

  private static void decode64(
      byte[] in, int from, int step, boolean big, long[] out, int offset, int n) {
    for (int i = 0, at = from; i < n; i++, at += step) {
      long v = (long) LONGS.get(in, at);
      out[offset + i] = big ? Long.reverseBytes(v) : v;
    }
  }

  private static void encode16(
      long[] in, int offset, int n, boolean big, byte[] out, int to, int step) {
    for (int i = 0, at = to; i < n; i++, at += step) {
      short v = (short) in[offset + i];
      SHORTS.set(out, at, big ? Short.reverseBytes(v) : v);
    }
  }

  private static void encode24(
      long[] in, int offset, int n, boolean big, byte[] out, int to, int step) {
    int low = big ? 2 : 0;
    int high = 2 - low;
    for (int i = 0, at = to; i < n; i++, at += step) {
      int v = (int) in[offset + i];
      out[at + low] = (byte) v;
      out[at + 1] = (byte) (v >> 8);
      out[at + high] = (byte) (v >> 16);
    }
  }

  private static void encode32(
      long[] in, int offset, int n, boolean big, byte[] out, int to, int step) {
    for (int i = 0, at = to; i < n; i++, at += step) {
      int v = (int) in[offset + i];
      INTS.set(out, at, big ? Integer.reverseBytes(v) : v);
    }
  }

  private static void encode64(
      long[] in, int offset, int n, boolean big, byte[] out, int to, int step) {
    for (int i = 0, at = to; i < n; i++, at += step) {
      long v = in[offset + i];
      LONGS.set(out, at, big ? Long.reverseBytes(v) : v);
    }
  }

  /** Index of the first float in {@code words} that is NaN or infinite, -1 if none. */
  static int firstNotFinite(long[] words, int offset, int count, int bits) {
    long exponent = bits == 32 ? 0x7f80_0000L : 0x7ff0_0000_0000_0000L;
    long one = bits == 32 ? 0x0080_0000L : 0x0010_0000_0000_0000L;
    long carry = 0;
    for (int i = 0; i < count; i++) {
      carry |= (words[offset + i] & exponent) + one; // carries into the sign only if all are set
    }
    if ((carry >>> (bits - 1) & 1) == 0) {
      return -1;
    }
    for (int i = 0; i < count; i++) {
      if ((words[offset + i] & exponent) == exponent) {
        return i;
      }
    }
    return -1;
  }
}
