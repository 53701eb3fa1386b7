package org.groovemend.chain;

import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;

/** A side in memory. */
public record MemorySide(AudioFormat format, long[][] words) implements WordSource {

  @Override
  public long frames() {
    return words[0].length;
  }

  @Override
  public void readWords(long firstFrame, int count, long[][] into, int offset) {
    for (int c = 0; c < words.length; c++) {
      System.arraycopy(words[c], (int) firstFrame, into[c], offset, count);
    }
  }
}
