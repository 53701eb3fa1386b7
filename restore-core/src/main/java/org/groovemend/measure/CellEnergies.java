package org.groovemend.measure;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;

/**
 * Energy of a side before and after, above a corner frequency, in cells of {@value #PER_SECOND} a
 * second.
 *
 * <p>Samples inside repaired places are left out of both sums; the filter gets the repaired sample
 * there in place of the damaged one, so that no damage rings on behind it. Any cutting into blocks
 * gives the same cells; a part of a cell at the end is dropped.
 */
final class CellEnergies {

  static final int PER_SECOND = 200;

  /** Takes the cells in order. */
  interface Sink {

    /**
     * One cell.
     *
     * @param before mean square before over the samples outside repaired places; NaN if these are
     *     fewer than half
     * @param after the same after
     * @param repaired true if a repaired place reaches into the cell
     */
    void cell(double before, double after, boolean repaired);
  }

  private final HighPass[] filtersBefore;
  private final HighPass[] filtersAfter;
  private final int cellFrames;
  private final Sink sink;
  private final double[] sumBefore;
  private final double[] sumAfter;
  private int counted;
  private int filled;

  CellEnergies(AudioFormat format, double fromHertz, Sink sink) {
    cellFrames = format.sampleRateHz() / PER_SECOND;
    this.sink = sink;
    filtersBefore = new HighPass[format.channels()];
    filtersAfter = new HighPass[format.channels()];
    sumBefore = new double[format.channels()];
    sumAfter = new double[format.channels()];
    Arrays.setAll(filtersBefore, c -> new HighPass(fromHertz, format.sampleRateHz()));
    Arrays.setAll(filtersAfter, c -> new HighPass(fromHertz, format.sampleRateHz()));
  }

  int cellFrames() {
    return cellFrames;
  }

  void accept(double[][] before, double[][] after, boolean[][] repaired, int count) {
    for (int done = 0; done < count; ) {
      int n = Math.min(count - done, cellFrames - filled);
      for (int c = 0; c < filtersBefore.length; c++) {
        add(c, before[c], after[c], repaired[c], done, done + n);
      }
      done += n;
      filled += n;
      if (filled == cellFrames) {
        finish();
      }
    }
  }

  private void finish() {
    int all = cellFrames * filtersBefore.length;
    double before = 0;
    double after = 0;
    for (int c = 0; c < sumBefore.length; c++) {
      before += sumBefore[c];
      after += sumAfter[c];
    }
    boolean enough = 2 * counted >= all;
    sink.cell(
        enough ? before / counted : Double.NaN,
        enough ? after / counted : Double.NaN,
        counted < all);
    filled = 0;
    counted = 0;
    Arrays.fill(sumBefore, 0);
    Arrays.fill(sumAfter, 0);
  }

  private void add(int c, double[] before, double[] after, boolean[] repaired, int from, int to) {
    HighPass filterBefore = filtersBefore[c];
    HighPass filterAfter = filtersAfter[c];
    double b2 = sumBefore[c];
    double a2 = sumAfter[c];
    for (int i = from; i < to; i++) {
      boolean out = repaired[i];
      double b = filterBefore.next(out ? after[i] : before[i]);
      double a = filterAfter.next(after[i]);
      if (!out) {
        b2 += b * b;
        a2 += a * a;
        counted++;
      }
    }
    sumBefore[c] = b2;
    sumAfter[c] = a2;
  }
}
