package org.groovemend.report;

import org.groovemend.audio.AudioFormat;

/**
 * How often the two walls stand where: half the sum of the channels (lateral) against half the
 * difference (vertical), in {@value #CELLS} by {@value #CELLS} cells over -1 to 1. One frame in
 * {@value #EVERY}; memory does not depend on length.
 */
public final class WallField {
  static final int CELLS = 1024;
  private static final int EVERY = 5;

  private final int[] counts = new int[CELLS * CELLS];
  private final boolean two;
  private long position;
  private long seen;

  public WallField(AudioFormat format) {
    two = format.channels() == 2;
  }

  /** Whether there are two walls to show, and any sound. */
  public boolean isEmpty() {
    return !two || seen == 0;
  }

  /** The next frames, full scale 1.0. */
  public void accept(double[][] samples, int count) {
    if (!two) {
      return;
    }
    int skip = (int) ((EVERY - position % EVERY) % EVERY);
    for (int i = skip; i < count; i += EVERY) {
      double left = samples[0][i];
      double right = samples[1][i];
      if (left != 0 || right != 0) {
        counts[cell((left + right) / 2) * CELLS + cell((left - right) / 2)]++;
        seen++;
      }
    }
    position += count;
  }

  private static int cell(double value) {
    return Math.max(0, Math.min(CELLS - 1, (int) Math.floor((value + 1) / 2 * CELLS)));
  }

  /** Half the width of the square that holds all but one in a thousand frames, in cells. */
  int reach() {
    long[] within = new long[CELLS];
    for (int y = 0; y < CELLS; y++) {
      for (int x = 0; x < CELLS; x++) {
        int away = Math.max(Math.abs(2 * y + 1 - CELLS), Math.abs(2 * x + 1 - CELLS)) / 2;
        within[away] += counts[y * CELLS + x];
      }
    }
    long sum = 0;
    for (int reach = 0; reach < CELLS / 2; reach++) {
      sum += within[reach];
      if (sum >= 0.999 * seen) {
        return Math.max(4, reach + 1);
      }
    }
    return CELLS / 2;
  }

  int count(int lateral, int vertical) {
    return counts[lateral * CELLS + vertical];
  }
}
