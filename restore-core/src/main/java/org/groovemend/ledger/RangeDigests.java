package org.groovemend.ledger;

import java.io.IOException;
import org.groovemend.audio.WordSource;

/**
 * Digests of ranges of a side, asked for in order of their start: reads forward in blocks, not
 * range by range.
 */
public final class RangeDigests {

  private static final int WINDOW_FRAMES = 1 << 16;

  private final WordSource side;
  private final RangeWords range;
  private final long[][] window;
  private long first;
  private int count;

  /** Of the words of a side. */
  public RangeDigests(WordSource side) {
    this.side = side;
    this.range = new RangeWords(side.format());
    this.window = new long[side.format().channels()][WINDOW_FRAMES];
  }

  /** SHA-256 of the words of {@code [start, end)} as the ledger lays them out. */
  public String digest(int channel, long start, long end) throws IOException {
    for (long at = start; at < end; ) {
      if (at < first || at >= first + count) {
        fill(at);
      }
      int offset = (int) (at - first);
      int n = (int) Math.min(end - at, count - offset);
      range.update(window[channel], offset, n);
      at += n;
    }
    return range.digest();
  }

  private void fill(long at) throws IOException {
    first = at;
    count = (int) Math.min(WINDOW_FRAMES, side.frames() - at);
    side.readWords(first, count, window, 0);
  }
}
