package org.groovemend.chain;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Segmentation;

/**
 * What a repair stage would do to parts of a side.
 *
 * @param repairs in order of start
 * @param frames how much of the side was looked at
 */
public record RepairSample(List<Repair> repairs, long frames) {

  public RepairSample {
    repairs = List.copyOf(repairs);
  }

  static RepairSample take(RangeReader side, RepairStage stage, int segments) throws IOException {
    Segmentation cut = stage.segmentation(side.format());
    long all = (side.frames() + cut.segmentFrames() - 1) / cut.segmentFrames();
    long taken = Math.min(all, segments);
    RepairStage.Worker worker = stage.open(side.format());
    FilledGaps filled = new FilledGaps(side.format().channels());
    List<Repair> repairs = new ArrayList<>();
    long frames = 0;
    for (long k = 0; k < taken; k++) {
      // the middle of each of {taken} equal parts
      long segment = (2 * k + 1) * all / (2 * taken) * cut.segmentFrames();
      repairs.addAll(filled.settle(worker.repair(SegmentCutter.cut(side, cut, segment))));
      frames += Math.min(side.frames(), segment + cut.segmentFrames()) - segment;
    }
    return new RepairSample(repairs, frames);
  }
}
