package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.stage.RangeReader;

/** Reads a side beyond its ends, where it is silent. */
final class Silent {
  private final RangeReader side;
  private double[][] part = new double[0][0];

  Silent(RangeReader side) {
    this.side = side;
  }

  RangeReader side() {
    return side;
  }

  int channels() {
    return side.format().channels();
  }

  /** Fills {@code into[channel][offset...offset + count)}. */
  void read(long first, int count, double[][] into, int offset) throws IOException {
    long from = Math.max(0, Math.min(side.frames(), first));
    long to = Math.max(from, Math.min(side.frames(), first + count));
    int n = (int) (to - from);
    int lead = (int) Math.max(0, Math.min(count, from - first));
    if (part.length != into.length || part[0].length < n) {
      part = new double[into.length][Math.max(n, 1)];
    }
    if (n > 0) {
      side.read(from, n, part);
    }
    for (int c = 0; c < into.length; c++) {
      Arrays.fill(into[c], offset, offset + lead, 0);
      System.arraycopy(part[c], 0, into[c], offset + lead, n);
      Arrays.fill(into[c], offset + lead + n, offset + count, 0);
    }
  }
}
