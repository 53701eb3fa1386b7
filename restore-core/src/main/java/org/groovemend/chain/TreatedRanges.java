package org.groovemend.chain;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.groovemend.stage.Stage;

/**
 * Any range of a side as one stage leaves it, by treating just the segments that cover the range.
 */
final class TreatedRanges implements RangeReader {

  private final RangeReader before;
  private final Stage stage;
  private final Segmentation cut;
  private final RepairStage.Worker repairer;
  private final SignalStage.Worker treater;

  private TreatedRanges(RangeReader before, Stage stage) {
    this.before = before;
    this.stage = stage;
    this.cut = stage.segmentation(before.format());
    this.repairer = stage instanceof RepairStage repair ? repair.open(before.format()) : null;
    this.treater = stage instanceof SignalStage signal ? signal.open(before.format()) : null;
  }

  /** The side as all of {@code stages} leave it. */
  static RangeReader of(WordSource side, List<Stage> stages) {
    RangeReader reader = new Untreated(side);
    for (Stage stage : stages) {
      reader = new TreatedRanges(reader, stage);
    }
    return reader;
  }

  @Override
  public AudioFormat format() {
    return before.format();
  }

  @Override
  public long frames() {
    return before.frames();
  }

  @Override
  public void read(long firstFrame, int count, double[][] into) throws IOException {
    long end = firstFrame + count;
    int length = cut.segmentFrames();
    long segment = firstFrame / length * length;
    if (repairer != null) {
      before.read(firstFrame, count, into);
      // a repair may reach over from the segment before
      segment = Math.max(0, segment - length);
    }
    FilledGaps filled = new FilledGaps(format().channels());
    for (; segment < end; segment += length) {
      SegmentWindow window = SegmentCutter.cut(before, cut, segment);
      if (repairer != null) {
        for (Repair repair : filled.settle(repairer.repair(window))) {
          subtract(repair, firstFrame, count, into);
        }
      } else {
        int treated = (int) (window.segmentEnd() - window.segmentStart());
        double[][] out = new double[format().channels()][treated];
        treater.treat(window, out);
        long from = Math.max(firstFrame, window.segmentStart());
        long to = Math.min(end, window.segmentEnd());
        for (int c = 0; c < out.length; c++) {
          System.arraycopy(
              out[c],
              (int) (from - segment),
              into[c],
              (int) (from - firstFrame),
              (int) (to - from));
        }
      }
    }
  }

  private static void subtract(Repair repair, long firstFrame, int count, double[][] into) {
    int from = (int) Math.max(0, firstFrame - repair.start());
    int to = (int) Math.min(repair.removed().length, firstFrame + count - repair.start());
    int shift = (int) (repair.start() - firstFrame);
    for (int i = from; i < to; i++) {
      into[repair.channel()][shift + i] -= repair.removed()[i];
    }
  }

  @Override
  public String toString() {
    return "side as left by " + stage.parameters().stage().key();
  }

  /** The side as it was captured. */
  private static final class Untreated implements RangeReader {

    private final WordSource side;
    private long[][] words;

    Untreated(WordSource side) {
      this.side = side;
      this.words = new long[side.format().channels()][0];
    }

    @Override
    public AudioFormat format() {
      return side.format();
    }

    @Override
    public long frames() {
      return side.frames();
    }

    @Override
    public void read(long firstFrame, int count, double[][] into) throws IOException {
      for (int c = 0; c < words.length; c++) {
        if (words[c].length < count) {
          words[c] = Arrays.copyOf(words[c], count);
        }
      }
      side.readWords(firstFrame, count, words, 0);
      for (int c = 0; c < words.length; c++) {
        Words.toDoubles(words[c], 0, into[c], 0, count, side.format());
      }
    }
  }
}
