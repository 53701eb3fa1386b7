package org.groovemend.chain;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.stage.Repair;

/**
 * Which repairs count, segment by segment in order: two neighbours may both see a gap that lies
 * across their border, and the earlier one has filled it.
 */
final class FilledGaps {

  private final long[] end;

  FilledGaps(int channels) {
    end = new long[channels];
  }

  /** The repairs of the next segment without those that begin in a gap of an earlier segment. */
  List<Repair> settle(List<Repair> found) {
    long[] before = end.clone();
    List<Repair> counting = new ArrayList<>(found.size());
    for (Repair repair : found) {
      Repair.Evidence evidence = repair.evidence();
      int channel = repair.channel();
      if (evidence.gapStart() >= before[channel]) {
        end[channel] = Math.max(end[channel], evidence.gapStart() + evidence.gapFrames());
        counting.add(repair);
      }
    }
    return counting;
  }
}
