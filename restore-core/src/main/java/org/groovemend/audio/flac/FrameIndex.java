package org.groovemend.audio.flac;

import java.util.Arrays;

/** Where frames begin: one of every {@link #SPACING} samples or so, 24 bytes each. */
final class FrameIndex {

  private static final int SPACING = 16_384;

  private long[] entries = new long[3 * 256];
  private int size;

  /** Told in rising order; keeps only what it needs. */
  void add(long firstFrame, long offset, long frameNumber) {
    if (size > 0 && firstFrame < entries[3 * (size - 1)] + SPACING) {
      return;
    }
    if (3 * size == entries.length) {
      entries = Arrays.copyOf(entries, 2 * entries.length);
    }
    entries[3 * size] = firstFrame;
    entries[3 * size + 1] = offset;
    entries[3 * size + 2] = frameNumber;
    size++;
  }

  /** The last entry that begins at or before a position. */
  int floor(long frame) {
    int low = 0;
    int high = size - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (entries[3 * middle] <= frame) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }

  long firstFrame(int entry) {
    return entries[3 * entry];
  }

  long offset(int entry) {
    return entries[3 * entry + 1];
  }

  long frameNumber(int entry) {
    return entries[3 * entry + 2];
  }
}
