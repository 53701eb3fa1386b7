package org.groovemend.ledger;

import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutSink;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;

/** A side in memory. */
record ArraySide(Path path, AudioFormat format, long[][] words) implements SideReader {

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

  @Override
  public String container() {
    return "memory";
  }

  @Override
  public List<String> parts() {
    return List.of();
  }

  @Override
  public List<String> notices() {
    return List.of();
  }

  @Override
  public void describeLayout(LayoutSink sink) {
    throw new UnsupportedOperationException("no file");
  }

  @Override
  public List<WavChunk> wavChunks() {
    throw new UnsupportedOperationException("no file");
  }

  @Override
  public void close() {
    // holds nothing
  }
}
