package org.groovemend.review.side;

import java.io.Closeable;
import java.io.IOException;
import java.util.List;
import org.groovemend.audio.WordSource;

/**
 * The side before and after, opened for one reader at a time.
 *
 * @param before the transfer, itself or rebuilt
 * @param after the clean copy
 * @param open what is to be closed
 */
record BothSides(WordSource before, WordSource after, List<Closeable> open) implements Closeable {

  @Override
  public void close() throws IOException {
    IOException trouble = null;
    for (Closeable one : open) {
      try {
        one.close();
      } catch (IOException e) {
        trouble = e;
      }
    }
    if (trouble != null) {
      throw trouble;
    }
  }
}
