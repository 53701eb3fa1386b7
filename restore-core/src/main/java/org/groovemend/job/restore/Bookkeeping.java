package org.groovemend.job.restore;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.chain.Progress;
import org.groovemend.chain.WordSink;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.ledger.RangeWords;
import org.groovemend.measure.CompensatedSum;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/**
 * The last pass: compares what was read with what was written, word by word, and enters every
 * difference.
 *
 * <p>It trusts no stage. Where only repairs ran, a sample that differs outside a logged range stops
 * the job.
 */
public final class Bookkeeping {

  /** Most frames that are compared at once. */
  static final int BLOCK_FRAMES = 1 << 16;

  /** Samples compared at once: most of a side is not changed at all. */
  private static final int STRETCH = 512;

  /** What the pass found out. */
  public record Sums(
      String originalSamplesSha256,
      String restoredSamplesSha256,
      Map<StageId, Long> editsByStage,
      long edits,
      long changedSamples,
      long samplesInEdits,
      Difference all,
      Difference outsideEdits) {}

  /**
   * Original minus restored.
   *
   * @param meanSquare over the samples it speaks of, full scale 1.0
   * @param peak largest magnitude
   * @param samples how many samples it speaks of
   */
  record Difference(double meanSquare, double peak, long samples) {}

  /** Is shown every block and every edit, for pictures and lists. */
  public interface Onlooker {
    /**
     * The next block, {@code [channel][frame]}.
     *
     * @param inEdit true where a sample lies in a repaired place
     */
    void block(double[][] original, double[][] restored, boolean[][] inEdit, int count);

    void edit(LedgerEdit edit);

    /**
     * Whether a repair that left every word as it was is an edit all the same. Where all that was
     * found is repaired, such a repair took away less than half a step: nothing was edited.
     */
    default boolean countsUnchanged() {
      return false;
    }
  }

  private final WordSource original;
  private final WordSource restored;
  private final boolean wholeSignal;
  private final LedgerWriter ledger;
  private final WordSink removed;
  private final Onlooker onlooker;
  private final Crew crew;
  private final AudioFormat format;
  private final RangeWords rangeBefore;
  private final RangeWords rangeAfter;
  private final Map<StageId, Long> editsByStage = new EnumMap<>(StageId.class);
  private final CompensatedSum power = new CompensatedSum();
  private final CompensatedSum powerOutside = new CompensatedSum();
  private double peak;
  private double peakOutside;
  private long samplesOutside;
  private long changed;
  private long edits;
  private long editedSamples;

  /**
   * @param removed takes the difference words, or null if it is not wanted
   */
  public Bookkeeping(
      WordSource original,
      WordSource restored,
      boolean wholeSignal,
      LedgerWriter ledger,
      WordSink removed,
      Onlooker onlooker,
      Crew crew) {
    this.original = original;
    this.restored = restored;
    this.wholeSignal = wholeSignal;
    this.ledger = ledger;
    this.removed = removed;
    this.onlooker = onlooker;
    this.crew = crew;
    this.format = original.format();
    this.rangeBefore = new RangeWords(format);
    this.rangeAfter = new RangeWords(format);
  }

  public Sums run(LoggedRepairs repairs, Progress progress) throws IOException {
    long frames = original.frames();
    int channels = format.channels();
    ForwardWords before = new ForwardWords(original);
    ForwardWords after = new ForwardWords(restored);
    Deque<LoggedRepair> pending = new ArrayDeque<>();
    LoggedRepair next = repairs.next();
    SampleDigest digestBefore = new SampleDigest(format);
    SampleDigest digestAfter = new SampleDigest(format);
    boolean[][] covered = new boolean[channels][BLOCK_FRAMES];
    long[][] difference = new long[channels][BLOCK_FRAMES];
    double[][] samples = new double[channels][BLOCK_FRAMES];
    double[][] samplesBefore = new double[channels][BLOCK_FRAMES];
    for (long at = 0; at < frames; at += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, frames - at);
      long keepFrom = pending.isEmpty() ? at : Math.min(at, pending.getFirst().start());
      before.advance(count, keepFrom);
      after.advance(count, keepFrom);
      while (next != null && next.start() < at + count) {
        pending.addLast(next);
        next = repairs.next();
      }
      cover(covered, pending, at, count);
      int index = before.index(at);
      long start = at;
      crew.together(
          () -> compare(before, after, start, count, covered, removed == null ? null : difference),
          () -> digestBefore.update(before.words(), index, count),
          () -> digestAfter.update(after.words(), index, count),
          () -> {
            for (int c = 0; c < channels; c++) {
              Words.toDoubles(before.words()[c], index, samplesBefore[c], 0, count, format);
              Words.toDoubles(after.words()[c], index, samples[c], 0, count, format);
            }
            onlooker.block(samplesBefore, samples, covered, count);
          });
      if (removed != null) {
        removed.write(difference, 0, count);
      }
      while (!pending.isEmpty() && pending.getFirst().end() <= at + count) {
        enter(pending.removeFirst(), before, after);
      }
      progress.at("recording", at + count, frames);
    }
    return new Sums(
        digestBefore.hex(),
        digestAfter.hex(),
        editsByStage,
        edits,
        changed,
        editedSamples,
        new Difference(power.value() / ((double) frames * channels), peak, frames * channels),
        new Difference(
            samplesOutside == 0 ? 0 : powerOutside.value() / samplesOutside,
            peakOutside,
            samplesOutside));
  }

  private void compare(
      ForwardWords before,
      ForwardWords after,
      long at,
      int count,
      boolean[][] covered,
      long[][] difference) {
    int index = before.index(at);
    for (int c = 0; c < format.channels(); c++) {
      long[] a = before.words()[c];
      long[] b = after.words()[c];
      compare(a, b, index, count, covered[c], at, c);
      if (difference != null) {
        subtract(a, b, index, count, difference[c]);
      }
    }
  }

  /** Adds up the differences of one block of one channel. */
  private void compare(
      long[] a, long[] b, int index, int count, boolean[] inEdit, long at, int channel) {
    double blockPower = 0;
    double blockOutside = 0;
    for (int from = 0; from < count; from += STRETCH) {
      int to = Math.min(count, from + STRETCH);
      for (int i = from; i < to; i++) {
        samplesOutside += inEdit[i] ? 0 : 1;
      }
      if (Arrays.equals(a, index + from, index + to, b, index + from, index + to)) {
        continue;
      }
      for (int i = from; i < to; i++) {
        if (a[index + i] == b[index + i]) {
          continue;
        }
        changed++;
        if (!wholeSignal && !inEdit[i]) {
          throw new IllegalStateException(
              "frame "
                  + (at + i)
                  + " of channel "
                  + channel
                  + " changed outside every logged edit");
        }
        double d = Words.toDouble(a[index + i], format) - Words.toDouble(b[index + i], format);
        blockPower += d * d;
        peak = Math.max(peak, Math.abs(d));
        if (!inEdit[i]) {
          blockOutside += d * d;
          peakOutside = Math.max(peakOutside, Math.abs(d));
        }
      }
    }
    power.add(blockPower);
    powerOutside.add(blockOutside);
  }

  private void subtract(long[] a, long[] b, int index, int count, long[] out) {
    int bits = format.containerBits();
    for (int i = 0; i < count; i++) {
      out[i] = Words.minus(a[index + i], b[index + i], bits);
    }
  }

  private static void cover(boolean[][] covered, Deque<LoggedRepair> pending, long at, int count) {
    for (boolean[] channel : covered) {
      Arrays.fill(channel, 0, count, false);
    }
    for (LoggedRepair repair : pending) {
      int from = (int) Math.max(0, repair.start() - at);
      int to = (int) Math.min(count, repair.end() - at);
      if (from < to) {
        Arrays.fill(covered[repair.channel()], from, to, true);
      }
    }
  }

  private void enter(LoggedRepair repair, ForwardWords before, ForwardWords after)
      throws IOException {
    int channel = repair.channel();
    int index = before.index(repair.start());
    int count = (int) (repair.end() - repair.start());
    long[] a = before.words()[channel];
    long[] b = after.words()[channel];
    if (!onlooker.countsUnchanged()
        && Arrays.equals(a, index, index + count, b, index, index + count)) {
      return;
    }
    LedgerEdit edit =
        new LedgerEdit(
            ++edits,
            repair.stage().key(),
            channel,
            repair.start(),
            repair.end(),
            repair.evidence().statistic(),
            repair.evidence().threshold(),
            repair.evidence().method(),
            repair.evidence().modelOrder(),
            repair.evidence().gapStart(),
            repair.evidence().gapFrames(),
            repair.evidence().uncertaintyDbfs(),
            rangeBefore.digest(a, index, count),
            rangeAfter.digest(b, index, count),
            rangeBefore.bytes(a, index, count));
    ledger.edit(edit);
    editsByStage.merge(repair.stage(), 1L, Long::sum);
    editedSamples += count;
    onlooker.edit(edit);
  }
}
