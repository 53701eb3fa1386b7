package org.groovemend.audio.flac;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;

/**
 * A block of samples as {@code int} at the bits of the FLAC stream, taken from words of the
 * container's bits.
 */
final class SampleBlock {

  private final int channels;
  private final int containerBits;
  private final int shift;
  private long[][] words = {new long[0], new long[0]};
  private int[][] samples = {new int[0], new int[0]};

  /**
   * @param bits of the stream, at most the container's
   */
  SampleBlock(AudioFormat format, int bits) {
    this.channels = format.channels();
    this.containerBits = format.containerBits();
    this.shift = containerBits - bits;
  }

  void read(WordSource source, long firstFrame, int count) throws IOException {
    if (words[0].length < count) {
      words = new long[channels][count];
      samples = new int[][] {new int[count], new int[channels == 2 ? count : 0]};
    }
    source.readWords(firstFrame, count, words, 0);
    set(words, 0, 0, count);
  }

  /** Takes {@code count} words from {@code from} on to {@code at} on. */
  private void set(long[][] from, int offset, int at, int count) throws IOException {
    for (int c = 0; c < channels; c++) {
      if (!narrow(from[c], offset, samples[c], at, count, containerBits, shift)) {
        throw new IOException(
            "A sample does not fit the " + (containerBits - shift) + " bits of the FLAC file.");
      }
    }
  }

  int[][] samples() {
    return samples;
  }

  /**
   * Shifts words down to samples.
   *
   * @return whether every word fits its bits and had only zeros in the {@code shift} low ones
   */
  static boolean narrow(
      long[] words, int offset, int[] out, int at, int count, int containerBits, int shift) {
    int spare = 64 - containerBits;
    long lost = 0;
    long low = (1L << shift) - 1;
    for (int i = 0; i < count; i++) {
      long w = words[offset + i];
      lost |= w << spare >> spare ^ w | w & low;
      out[at + i] = (int) (w >> shift);
    }
    return lost == 0;
  }
}
