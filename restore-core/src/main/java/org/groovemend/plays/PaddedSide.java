package org.groovemend.plays;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;

/** A side with silence before and behind it. */
final class PaddedSide implements RangeReader {
  private final RangeReader side;
  private final long before;
  private final long frames;
  private double[][] inner;

  /**
   * @param before frames of silence that come first
   * @param frames in all
   */
  PaddedSide(RangeReader side, long before, long frames) {
    this.side = side;
    this.before = before;
    this.frames = frames;
    inner = new double[side.format().channels()][0];
  }

  @Override
  public AudioFormat format() {
    return side.format();
  }

  @Override
  public long frames() {
    return frames;
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) throws IOException {
    long first = firstFrame - before;
    int from = (int) Math.max(0, Math.min(count, -first));
    int to = (int) Math.max(from, Math.min(count, side.frames() - first));
    if (to > from && from == 0) {
      side.read(first, to, into);
    } else if (to > from) {
      if (inner[0].length < to - from) {
        inner = new double[inner.length][count];
      }
      side.read(first + from, to - from, inner);
      for (int c = 0; c < into.length; c++) {
        System.arraycopy(inner[c], 0, into[c], from, to - from);
      }
    }
    for (double[] channel : into) {
      Arrays.fill(channel, 0, from, 0);
      Arrays.fill(channel, to, count, 0);
    }
  }
}
