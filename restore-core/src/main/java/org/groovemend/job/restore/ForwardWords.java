package org.groovemend.job.restore;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.WordSource;

/** A sliding stretch of a side's words, read forwards once. */
final class ForwardWords {

  private final WordSource side;
  private final long[][] words;
  private long base;
  private int length;

  ForwardWords(WordSource side) {
    this.side = side;
    this.words = new long[side.format().channels()][1 << 17];
  }

  long end() {
    return base + length;
  }

  /** Reads on by {@code count} frames and forgets what lies before {@code keepFrom}. */
  void advance(int count, long keepFrom) throws IOException {
    int drop = (int) Math.max(0, Math.min(length, keepFrom - base));
    for (int c = 0; c < words.length; c++) {
      System.arraycopy(words[c], drop, words[c], 0, length - drop);
    }
    base += drop;
    length -= drop;
    if (length + count > words[0].length) {
      for (int c = 0; c < words.length; c++) {
        words[c] = Arrays.copyOf(words[c], Math.max(length + count, 2 * words[c].length));
      }
    }
    side.readWords(base + length, count, words, length);
    length += count;
  }

  long[][] words() {
    return words;
  }

  /** Index of a frame in {@link #words()}. */
  int index(long frame) {
    return (int) (frame - base);
  }
}
