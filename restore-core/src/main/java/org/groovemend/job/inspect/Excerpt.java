package org.groovemend.job.inspect;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;

/** A part of a side as a side of its own. */
record Excerpt(RangeReader side, long start, long frames) implements RangeReader {

  /** The middle of a side, no longer than some seconds. */
  static RangeReader middle(RangeReader side, double seconds) {
    long frames = Math.min(side.frames(), side.format().frames(seconds));
    return frames == side.frames() ? side : new Excerpt(side, (side.frames() - frames) / 2, frames);
  }

  @Override
  public AudioFormat format() {
    return side.format();
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) throws IOException {
    side.read(start + firstFrame, count, into);
  }
}
