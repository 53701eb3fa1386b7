package org.groovemend.plays;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;

/** A side that several threads may read, one at a time. */
final class SharedSide implements RangeReader {
  private final RangeReader side;

  SharedSide(RangeReader side) {
    this.side = side;
  }

  @Override
  public AudioFormat format() {
    return side.format();
  }

  @Override
  public long frames() {
    return side.frames();
  }

  @Override
  public synchronized void read(long firstFrame, int count, double[][] into) throws IOException {
    side.read(firstFrame, count, into);
  }
}
