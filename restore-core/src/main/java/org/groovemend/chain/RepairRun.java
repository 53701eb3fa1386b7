package org.groovemend.chain;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.Semaphore;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Crew;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;

/** A stage that takes away at named places; every other sample passes as it is. */
final class RepairRun extends StageRun<RepairStage.Worker, RepairRun.Found> {

  /** What a worker made of one segment. */
  record Found(List<Repair> repairs, List<LeftAlone> leftAlone) {}

  private final RepairStage stage;
  private final RepairSink repairs;
  private final double[][] block;
  private final FilledGaps filled;
  private final int longest;
  private final List<Repair> active = new ArrayList<>();

  RepairRun(
      RepairStage stage,
      AudioFormat format,
      long sideFrames,
      Crew crew,
      Semaphore slots,
      RepairSink repairs,
      BlockSink output) {
    super(
        stage.segmentation(format),
        format,
        sideFrames,
        crew,
        slots,
        () -> stage.open(format),
        output);
    this.stage = stage;
    this.repairs = repairs;
    int most = (int) Math.min(sideFrames, stage.segmentation(format).segmentFrames());
    block = new double[format.channels()][most];
    filled = new FilledGaps(format.channels());
    longest = Math.max(1, stage.segmentation(format).segmentFrames() / 2);
  }

  @Override
  Found work(RepairStage.Worker worker, SegmentWindow window) {
    List<Repair> repairs = worker.repair(window);
    return new Found(repairs, worker.leftAlone());
  }

  @Override
  void deliver(long start, long end, Found found) throws IOException {
    for (Repair repair : found.repairs()) {
      requireWithin(repair, start, end);
    }
    for (Repair repair : filled.settle(found.repairs())) {
      active.add(repair);
      repairs.accept(stage.parameters().stage(), repair);
    }
    for (LeftAlone place : found.leftAlone()) {
      repairs.leftAlone(stage.parameters().stage(), place);
    }
    int count = (int) (end - start);
    input.copy(start, count, block, 0);
    for (Iterator<Repair> each = active.iterator(); each.hasNext(); ) {
      Repair repair = each.next();
      double[] channel = block[repair.channel()];
      double[] removed = repair.removed();
      int from = (int) Math.max(0, start - repair.start());
      int to = (int) Math.min(removed.length, end - repair.start());
      int shift = (int) (repair.start() - start);
      for (int i = from; i < to; i++) {
        channel[shift + i] -= removed[i];
      }
      if (repair.end() <= end) {
        each.remove();
      }
    }
    output.accept(start, block, count);
  }

  private void requireWithin(Repair repair, long start, long end) {
    if (repair.start() < start || repair.start() >= end || repair.end() > sideFrames) {
      throw new IllegalStateException(
          stage.parameters().stage().key()
              + " gave a repair at "
              + repair.start()
              + " to "
              + repair.end()
              + " for the segment "
              + start
              + " to "
              + end);
    }
    // range readers look back one segment only, and rely on this
    if (repair.removed().length > longest) {
      throw new IllegalStateException(
          stage.parameters().stage().key()
              + " gave a repair of "
              + repair.removed().length
              + " frames at "
              + repair.start()
              + ": longer than half a segment, "
              + longest);
    }
  }
}
