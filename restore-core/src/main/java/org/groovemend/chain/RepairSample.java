package org.groovemend.chain;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;
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
    return take(side, stage, segments, Integer.MAX_VALUE, Crew.alone());
  }

  /**
   * Two segments at a time, far apart, until there are enough repairs: the same on any number of
   * hands.
   */
  static RepairSample take(RangeReader side, RepairStage stage, int segments, int enough, Crew crew)
      throws IOException {
    Segmentation cut = stage.segmentation(side.format());
    long all = (side.frames() + cut.segmentFrames() - 1) / cut.segmentFrames();
    int taken = (int) Math.min(all, segments);
    RepairStage.Worker[] workers = new RepairStage.Worker[Math.min(2, taken)];
    for (int w = 0; w < workers.length; w++) {
      workers[w] = stage.open(side.format());
    }
    List<List<Repair>> found = new ArrayList<>(Collections.nCopies(taken, null));
    int count = 0;
    for (int done = 0; done < taken && count < enough; done += workers.length) {
      int n = Math.min(workers.length, taken - done);
      Runnable[] looks = new Runnable[n];
      for (int w = 0; w < n; w++) {
        int k = order(done + w, taken);
        RepairStage.Worker worker = workers[w];
        SegmentWindow window = SegmentCutter.cut(side, cut, start(k, all, taken, cut));
        looks[w] = () -> found.set(k, worker.repair(window));
      }
      crew.share(List.of(looks));
      for (int w = 0; w < n; w++) {
        count += found.get(order(done + w, taken)).size();
      }
    }
    FilledGaps filled = new FilledGaps(side.format().channels());
    List<Repair> repairs = new ArrayList<>();
    long frames = 0;
    for (int k = 0; k < taken; k++) {
      if (found.get(k) != null) {
        long segment = start(k, all, taken, cut);
        repairs.addAll(filled.settle(found.get(k)));
        frames += Math.min(side.frames(), segment + cut.segmentFrames()) - segment;
      }
    }
    return new RepairSample(repairs, frames);
  }

  /** First frame of the middle of each of {@code taken} equal parts. */
  private static long start(long k, long all, long taken, Segmentation cut) {
    return (2 * k + 1) * all / (2 * taken) * cut.segmentFrames();
  }

  /** The even ones first, so that few lie far apart too. */
  private static int order(int i, int taken) {
    int even = (taken + 1) / 2;
    return i < even ? 2 * i : 2 * (i - even) + 1;
  }
}
