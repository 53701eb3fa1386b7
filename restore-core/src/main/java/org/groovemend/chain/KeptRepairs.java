package org.groovemend.chain;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.groovemend.chain.RepairSelection.Share;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/**
 * Stands behind the last repair stage and, in place of what comes from there, gives on what went
 * into the first one less the repairs that are kept. So each stage finds what it finds when all are
 * kept, and nothing is put back that was taken away: a sum of floating-point numbers would not be
 * the sample that was there.
 *
 * <p>Repairs are subtracted stage by stage and in order, as the stages themselves do it: where all
 * that meet in a sample are kept, the result is theirs to the last bit.
 */
final class KeptRepairs implements BlockSink {

  private final RepairSelection selection;
  private final BlockSink output;
  private final FrameStore input;
  private final List<List<Pending>> byStage = new ArrayList<>();
  private final List<Repair> leftOut = new ArrayList<>();
  private final double[][] block;

  private record Pending(Repair repair, Share share) {}

  KeptRepairs(int channels, RepairSelection selection, BlockSink output) {
    this.selection = selection;
    this.output = output;
    this.input = new FrameStore(channels);
    this.block = new double[channels][];
    for (int c = 0; c < channels; c++) {
      block[c] = new double[0];
    }
  }

  /** What is to be fed, so that what goes into {@code first} is known here too. */
  BlockSink before(BlockSink first) {
    return (firstFrame, samples, count) -> {
      input.append(samples, 0, count);
      first.accept(firstFrame, samples, count);
    };
  }

  /** Takes the repairs of one stage; asked for in the order in which the stages run. */
  RepairSink ofNextStage(RepairSink told) {
    List<Pending> pending = new ArrayList<>();
    byStage.add(pending);
    return new RepairSink() {
      @Override
      public void accept(StageId stage, Repair repair) throws IOException {
        told.accept(stage, repair);
        Share share = selection.share(stage, repair);
        if (share == Share.NONE) {
          leftOut.add(repair);
        } else {
          pending.add(new Pending(repair, share));
        }
      }

      @Override
      public void leftAlone(StageId stage, LeftAlone place) throws IOException {
        told.leftAlone(stage, place);
      }
    };
  }

  @Override
  public void accept(long firstFrame, double[][] samples, int count) throws IOException {
    long end = firstFrame + count;
    for (int c = 0; c < block.length; c++) {
      if (block[c].length < count) {
        block[c] = new double[count];
      }
    }
    input.copy(firstFrame, count, block, 0);
    for (List<Pending> pending : byStage) {
      for (Iterator<Pending> each = pending.iterator(); each.hasNext(); ) {
        Pending next = each.next();
        if (next.repair().start() >= end) {
          break; // the stage is ahead, and finds in order of start
        }
        subtract(next, firstFrame, end);
        if (next.repair().end() <= end) {
          each.remove();
        }
      }
    }
    leftOut.removeIf(repair -> repair.end() <= end);
    input.discardBefore(end);
    output.accept(firstFrame, block, count);
  }

  private void subtract(Pending pending, long firstFrame, long end) {
    Repair repair = pending.repair();
    double[] channel = block[repair.channel()];
    double[] removed = repair.removed();
    int from = (int) Math.max(0, firstFrame - repair.start());
    int to = (int) Math.min(removed.length, end - repair.start());
    int shift = (int) (repair.start() - firstFrame);
    boolean all = pending.share() == Share.WHOLE;
    for (int i = from; i < to; i++) {
      if (all || !isLeftOut(repair.channel(), repair.start() + i)) {
        channel[shift + i] -= removed[i];
      }
    }
  }

  private boolean isLeftOut(int channel, long frame) {
    for (Repair repair : leftOut) {
      if (repair.channel() == channel && repair.start() <= frame && frame < repair.end()) {
        return true;
      }
    }
    return false;
  }
}
