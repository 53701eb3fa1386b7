package org.groovemend.stage;

import java.util.List;
import org.groovemend.audio.AudioFormat;

/** A treatment that may change any sample. */
public non-sealed interface SignalStage extends Stage {

  /**
   * A worker with its own work arrays, used by one thread at a time for any number of segments in
   * any order.
   */
  Worker open(AudioFormat format);

  /**
   * True if every channel comes out the same. Stages behind it treat like channels alike, and what
   * is written then is the same words too: the dither is that of the first channel in all of them.
   */
  default boolean joinsChannels() {
    return false;
  }

  /** Treats one segment. */
  interface Worker {
    /**
     * Writes the treated segment, {@code segmentEnd - segmentStart} samples per channel, to {@code
     * out[channel][0...]}. Neighbouring segments must join without a step.
     */
    void treat(SegmentWindow window, double[][] out);

    /** What is to be told of places in the segment last given to {@link #treat}, in order. */
    default List<StageNote> notes() {
      return List.of();
    }
  }
}
