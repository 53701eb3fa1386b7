package org.groovemend.plays;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;

/** A side of two channels, left for right. */
record ExchangedChannels(RangeReader side) implements RangeReader {

  @Override
  public AudioFormat format() {
    return side.format();
  }

  @Override
  public long frames() {
    return side.frames();
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) throws IOException {
    side.read(firstFrame, count, new double[][] {into[1], into[0]});
  }
}
