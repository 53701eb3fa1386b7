package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RangeReader;

/** The original laid on the derivative's frames; silent where it has no part in it. */
final class AlignedSide implements RangeReader {
  private final Silent timeline;
  private final List<Alignment.Stretch> stretches;
  private final long frames;

  AlignedSide(RangeReader timeline, List<Alignment.Stretch> stretches, long frames) {
    this.timeline = new Silent(timeline);
    this.stretches = stretches;
    this.frames = frames;
  }

  @Override
  public AudioFormat format() {
    return timeline.side().format();
  }

  @Override
  public long frames() {
    return frames;
  }

  List<Alignment.Stretch> stretches() {
    return stretches;
  }

  /** May begin before the side and end behind it. */
  @Override
  public void read(long first, int count, double[][] into) throws IOException {
    for (double[] channel : into) {
      Arrays.fill(channel, 0, count, 0);
    }
    for (Alignment.Stretch s : stretches) {
      // the original goes on before and behind a stretch: what a filter hears there
      long from = Math.max(first, s.from());
      long to = Math.min(first + count, s.to());
      if (to > from) {
        timeline.read(from + s.lag(), (int) (to - from), into, (int) (from - first));
      }
    }
  }
}
