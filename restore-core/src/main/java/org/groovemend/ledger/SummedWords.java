package org.groovemend.ledger;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;

/** The original's words where any sample may have changed: restored plus removed, modulo 2^bits. */
final class SummedWords implements OriginalWords {

  private static final int CHUNK_FRAMES = 1 << 14;

  private final AudioFormat format;
  private final WordSource restored;
  private final WordSource removed;
  private final long[][] work;

  /**
   * @param removed the difference words, at full width: {@link SplitWords#joined} before for 64-bit
   *     words
   */
  SummedWords(AudioFormat format, WordSource restored, WordSource removed) {
    this.format = format;
    this.restored = restored;
    this.removed = removed;
    this.work = new long[format.channels()][CHUNK_FRAMES];
  }

  @Override
  public AudioFormat format() {
    return format;
  }

  @Override
  public long frames() {
    return restored.frames();
  }

  @Override
  public void readWords(long firstFrame, int count, long[][] into, int offset) throws IOException {
    restored.readWords(firstFrame, count, into, offset);
    int bits = format.containerBits();
    for (int done = 0; done < count; done += CHUNK_FRAMES) {
      int n = Math.min(CHUNK_FRAMES, count - done);
      removed.readWords(firstFrame + done, n, work, 0);
      for (int c = 0; c < work.length; c++) {
        long[] channel = into[c];
        for (int i = 0, at = offset + done; i < n; i++, at++) {
          channel[at] = Words.plus(channel[at], work[c][i], bits);
        }
      }
    }
  }

  @Override
  public void close() {
    // holds nothing
  }
}
