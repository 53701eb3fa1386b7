package org.groovemend.plays;

import java.io.IOException;
import java.util.List;
import java.util.function.Supplier;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/**
 * Goes through all plays in segments that lie on a fixed grid, each with context: read and worked
 * on by the crew, finished in order.
 */
final class Segments {

  /** Frames of the transform that a segment's context is long on each side. */
  private static final int CONTEXT = 2;

  private static final int FRAMES = 16;

  private final PlaySet plays;
  private final int length;

  Segments(PlaySet plays) {
    this.plays = plays;
    length = FrameMix.length(plays.rate());
  }

  int segmentFrames() {
    return FRAMES * length;
  }

  int context() {
    return CONTEXT * length;
  }

  /** Frames of a window: a segment and its context. */
  int windowFrames() {
    return segmentFrames() + 2 * context();
  }

  long count() {
    return (plays.frames() + segmentFrames() - 1) / segmentFrames();
  }

  /** One worker's room. */
  abstract static class Worker implements Lots.Worker {
    double[][][] x;
    long segment;

    /** First frame of the window: that of the segment less the context, perhaps negative. */
    long first;

    private Segments segments;
    private List<RangeReader> heard;

    @Override
    public final void work(long lot) throws IOException {
      segment = lot;
      first = lot * segments.segmentFrames() - segments.context();
      for (int p = 0; p < x.length; p++) {
        new PaddedSide(heard.get(p), 0, Long.MAX_VALUE).read(first, segments.windowFrames(), x[p]);
      }
      work();
    }

    @Override
    public final void finish(long lot) throws IOException {
      finish();
    }

    /** Works on {@code x}; on any thread. */
    abstract void work();

    /** Hands on what was found; on the calling thread, in order. */
    abstract void finish() throws IOException;
  }

  void run(Crew crew, Supplier<Worker> workers) throws IOException {
    Lots.run(
        count(),
        crew,
        () -> {
          Worker one = workers.get();
          one.segments = this;
          one.heard = plays.heard();
          one.x = new double[plays.size()][plays.channels()][windowFrames()];
          return one;
        });
  }
}
