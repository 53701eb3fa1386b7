package org.groovemend.job.side;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.Progress;
import org.groovemend.stage.RangeReader;

/**
 * A side that tells before every read that the work goes on, so that a long analysis can be stopped
 * where a {@link Progress} throws.
 *
 * @param side what is read
 * @param progress is told
 * @param step what is being done, in words for people
 * @param done steps done before this one
 * @param total steps in all
 */
public record WatchedRanges(RangeReader side, Progress progress, String step, long done, long total)
    implements RangeReader {

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
    progress.at(step, done, total);
    side.read(firstFrame, count, into);
  }
}
