package org.groovemend.leadin;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.groovemend.audio.AudioFormat;

/**
 * Reads a side once, in order, and says where the groove alone is heard. Not for use by several
 * threads.
 *
 * <p>Call {@link #accept} with all frames in order, in pieces of any length, then {@link #finish}.
 */
public final class LeadInFinder {

  /** Start and end of the side that are searched. */
  static final double SEARCHED_SECONDS = 60;

  private final AudioFormat format;
  private final long frames;
  private final SliceReader reader;
  private final List<Slice> head = new ArrayList<>();
  private final ArrayDeque<Slice> tail = new ArrayDeque<>();
  private final LevelCensus census;
  private final int kept;
  private long slices;

  /**
   * A finder for one side, which has heard nothing of it yet.
   *
   * @param frames length of the whole side
   */
  public LeadInFinder(AudioFormat format, long frames) {
    this.format = format;
    this.frames = frames;
    this.reader = new SliceReader(format);
    this.census = new LevelCensus();
    this.kept =
        Math.max(1, (int) (SEARCHED_SECONDS * format.sampleRateHz() / reader.sliceFrames()));
  }

  /**
   * Takes the next frames of the side.
   *
   * @param samples one array per channel, full scale 1.0, not changed
   * @param count valid frames in them
   */
  public void accept(double[][] samples, int count) {
    int at = 0;
    while (at < count) {
      at += reader.take(samples, at, count, searched());
      if (reader.ready()) {
        add(reader.slice());
      }
    }
  }

  /** Only the two ends are searched, so only there are spectra worth their time. */
  private boolean searched() {
    return slices < kept || slices >= frames / reader.sliceFrames() - kept;
  }

  private void add(Slice slice) {
    boolean searched = searched();
    census.add(slice);
    slices++;
    if (head.size() < kept) {
      head.add(slice);
    }
    if (searched) {
      if (tail.size() == kept) {
        tail.removeFirst();
      }
      tail.addLast(slice);
    }
  }

  public LeadInFinding finish() {
    GrooveSearch search = new GrooveSearch(format, reader.sliceFrames(), reader.lines(), census);
    GrooveSearch.Result in = search.search(head, frames);
    List<Slice> backward = new ArrayList<>(tail);
    Collections.reverse(backward);
    LeadInFinding.RunOut runOut = null;
    boolean wholeSide = in.found() && in.last() == slices;
    if (!wholeSide) {
      GrooveSearch.Result out = search.search(backward, frames);
      // a stretch is either before or behind the music
      if (out.found() && !(in.found() && slices - out.last() < in.last())) {
        runOut =
            new LeadInFinding.RunOut(
                (slices - out.last()) * reader.sliceFrames(),
                (slices - out.first()) * reader.sliceFrames(),
                out.confidence(),
                out.levelDbfs());
      }
    }
    if (!in.found()) {
      return LeadInFinding.none(in.reason(), runOut);
    }
    return new LeadInFinding(
        true,
        (long) in.first() * reader.sliceFrames(),
        (long) in.last() * reader.sliceFrames(),
        in.confidence(),
        in.reason(),
        in.levelDbfs(),
        false,
        runOut);
  }
}
