package org.groovemend.audio;

import java.io.IOException;

/** Sample words of a side by position. Not safe for use by several threads at once. */
public interface WordSource {

  AudioFormat format();

  /** Length of the side. */
  long frames();

  /**
   * Reads {@code count} frames beginning at {@code firstFrame} into {@code
   * into[channel][offset...]}.
   *
   * <p>Reading forwards is fast; any order is allowed.
   *
   * @param firstFrame 0 to {@code frames() - count}
   * @throws InputRejectedException if the file turns out to be damaged there
   */
  void readWords(long firstFrame, int count, long[][] into, int offset) throws IOException;
}
