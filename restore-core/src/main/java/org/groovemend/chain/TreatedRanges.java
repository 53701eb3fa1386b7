package org.groovemend.chain;

import java.io.IOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
 *
 * <p>The last segments are remembered: the next stage asks for overlapping ranges, and without that
 * each stage in a row would have all those before it done two or three times as often again.
 */
final class TreatedRanges implements RangeReader {

  /** Their repairs take little room, and are dear to find: minutes of a side. */
  private static final int REPAIRED_SEGMENTS = 64;

  /** A segment, and what its neighbour's context takes in; some tens of megabytes each. */
  private static final int TREATED_SEGMENTS = 3;

  private final RangeReader before;
  private final Stage stage;
  private final Segmentation cut;
  private final RepairStage.Worker repairer;
  private final SignalStage.Worker treater;
  private final Map<Long, List<Repair>> repaired = last(REPAIRED_SEGMENTS);
  private final Map<Long, double[][]> treated = last(TREATED_SEGMENTS);

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
      if (repairer != null) {
        for (Repair repair : filled.settle(repairs(segment))) {
          subtract(repair, firstFrame, count, into);
        }
      } else {
        double[][] out = treated(segment);
        long from = Math.max(firstFrame, segment);
        long to = Math.min(end, segment + out[0].length);
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

  private List<Repair> repairs(long segment) throws IOException {
    List<Repair> found = repaired.get(segment);
    if (found == null) {
      found = repairer.repair(SegmentCutter.cut(before, cut, segment));
      repaired.put(segment, found);
    }
    return found;
  }

  private double[][] treated(long segment) throws IOException {
    double[][] out = treated.get(segment);
    if (out == null) {
      SegmentWindow window = SegmentCutter.cut(before, cut, segment);
      out = new double[format().channels()][(int) (window.segmentEnd() - segment)];
      treater.treat(window, out);
      treated.put(segment, out);
    }
    return out;
  }

  private static <T> Map<Long, T> last(int count) {
    return new LinkedHashMap<>(2 * count, 0.75f, true) {
      @Override
      protected boolean removeEldestEntry(Map.Entry<Long, T> eldest) {
        return size() > count;
      }
    };
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
