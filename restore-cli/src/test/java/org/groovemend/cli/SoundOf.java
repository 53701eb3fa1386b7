package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.SideFiles;

/** Short files as samples, for tests. */
final class SoundOf {
  private SoundOf() {}

  /** All samples by channel, full scale 1.0. */
  static double[][] file(Path file) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      int n = (int) side.frames();
      long[][] words = new long[side.format().channels()][n];
      side.readWords(0, n, words, 0);
      double[][] x = new double[words.length][n];
      for (int c = 0; c < x.length; c++) {
        Words.toDoubles(words[c], 0, x[c], 0, n, side.format());
      }
      return x;
    }
  }
}
