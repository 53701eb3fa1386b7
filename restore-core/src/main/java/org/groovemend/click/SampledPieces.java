package org.groovemend.click;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;

/**
 * The stretches of a side from which its thresholds are set: about {@value #SECONDS} s, or fewer if
 * asked, in runs of 8 s, spread evenly.
 */
final class SampledPieces {
  static final double SECONDS = 60;
  private static final int HOPS = 64;
  private static final int RUN = 6;
  private static final int CONTEXT_HOPS = 8;

  private final List<Long> numbers = new ArrayList<>();
  private final long piece;
  private final int context;
  private final long sideFrames;

  SampledPieces(long sideFrames, ClickGeometry g, int rate) {
    this(sideFrames, g, rate, SECONDS);
  }

  /**
   * @param seconds most that are looked at
   */
  SampledPieces(long sideFrames, ClickGeometry g, int rate, double seconds) {
    this.sideFrames = sideFrames;
    this.piece = (long) HOPS * g.hop();
    this.context = CONTEXT_HOPS * g.hop();
    long pieces = (sideFrames + piece - 1) / piece;
    long wanted = Math.max(1, (long) (seconds * rate / piece));
    for (long i = 0; i < Math.min(pieces, wanted); i++) {
      // runs of pieces, so that what returns once a turn is seen to return
      long run = i / RUN;
      long runs = (wanted + RUN - 1) / RUN;
      long number = run * Math.max(0, pieces - RUN) / Math.max(1, runs - 1) + i % RUN;
      numbers.add(
          pieces <= wanted ? i : Math.max(number, i == 0 ? 0 : numbers.get((int) i - 1) + 1));
    }
  }

  int count() {
    return numbers.size();
  }

  /** A stretch with its surroundings; the part of its own is the window's segment. */
  SegmentWindow window(RangeReader side, int index) throws IOException {
    long from = numbers.get(index) * piece;
    long to = Math.min(sideFrames, from + piece);
    long first = Math.max(0, from - context);
    int length = (int) (Math.min(sideFrames, to + context) - first);
    double[][] x = new double[side.format().channels()][length];
    side.read(first, length, x);
    return new SegmentWindow(x, first, length, from, to, sideFrames);
  }
}
