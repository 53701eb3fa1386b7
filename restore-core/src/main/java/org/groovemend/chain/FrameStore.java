package org.groovemend.chain;

import java.util.Arrays;

/** A sliding stretch of a side, planar, addressed by frame number. */
final class FrameStore {

  private final double[][] data;
  private long base;
  private int length;

  FrameStore(int channels) {
    data = new double[channels][1 << 16];
  }

  long base() {
    return base;
  }

  long end() {
    return base + length;
  }

  void append(double[][] block, int offset, int count) {
    ensureRoom(count);
    for (int c = 0; c < data.length; c++) {
      System.arraycopy(block[c], offset, data[c], length, count);
    }
    length += count;
  }

  void copy(long from, int count, double[][] into, int intoOffset) {
    int at = Math.toIntExact(from - base);
    for (int c = 0; c < data.length; c++) {
      System.arraycopy(data[c], at, into[c], intoOffset, count);
    }
  }

  void discardBefore(long frame) {
    int drop = (int) Math.min(length, Math.max(0, frame - base));
    // moving the rest is worth it only when much of the store is dead
    if (drop > data[0].length / 4 || drop == length) {
      for (double[] channel : data) {
        System.arraycopy(channel, drop, channel, 0, length - drop);
      }
      base += drop;
      length -= drop;
    }
  }

  private void ensureRoom(int count) {
    if (length + count > data[0].length) {
      // not twice: a stage's store settles at one size, and a side has several
      int size = length + count + (length + count) / 8;
      for (int c = 0; c < data.length; c++) {
        data[c] = Arrays.copyOf(data[c], size);
      }
    }
  }
}
