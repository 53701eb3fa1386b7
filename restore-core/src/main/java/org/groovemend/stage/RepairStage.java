package org.groovemend.stage;

import java.util.List;
import org.groovemend.audio.AudioFormat;

/** A treatment that changes named ranges only. */
public non-sealed interface RepairStage extends Stage {

  /**
   * A worker with its own work arrays, used by one thread at a time for any number of segments in
   * any order.
   */
  Worker open(AudioFormat format);

  /** Finds and repairs. */
  interface Worker {
    /**
     * Repairs that <em>start</em> within the segment (they may reach past its end, not before its
     * start), in order of start and then channel. Repairs of the context are the business of the
     * neighbours and must not be returned, but are decided alike there: decisions depend on frame
     * numbers and samples, never on where a segment happens to begin. No repair is longer than half
     * a segment (a segment of one frame: one frame), so that a range can be treated without all
     * that is before it.
     */
    List<Repair> repair(SegmentWindow window);

    /**
     * Places that start within the segment last given to {@link #repair} and were left as they are
     * because they are too long to be filled; by channel and start.
     */
    default List<LeftAlone> leftAlone() {
      return List.of();
    }
  }
}
