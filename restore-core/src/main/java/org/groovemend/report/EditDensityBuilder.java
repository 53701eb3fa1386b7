package org.groovemend.report;

import org.groovemend.audio.AudioFormat;

/** Gathers an {@link EditDensity} from edits in any order; memory depends on columns only. */
public final class EditDensityBuilder {

  private final Columns columns;
  private final int rate;
  private final int[][] counts;
  private final long[][] changed;

  public EditDensityBuilder(AudioFormat format, long frames, int columns) {
    this.columns = Columns.of(frames, columns);
    this.rate = format.sampleRateHz();
    this.counts = new int[format.channels()][this.columns.count()];
    this.changed = new long[format.channels()][this.columns.count()];
  }

  /**
   * One edit.
   *
   * @param channel 0 based
   * @param start first changed frame
   * @param end one past the last
   * @throws IllegalArgumentException if the edit is empty or does not lie within the side
   */
  public void add(int channel, long start, long end) {
    if (start < 0 || end <= start || end > columns.frames()) {
      throw new IllegalArgumentException(
          "edit " + start + " to " + end + " is empty or outside 0 to " + columns.frames());
    }
    int first = columns.of(start);
    counts[channel][first]++;
    for (int i = first; i < columns.count() && columns.start(i) < end; i++) {
      changed[channel][i] +=
          Math.min(end, columns.start(i + 1)) - Math.max(start, columns.start(i));
    }
  }

  public EditDensity build() {
    float[][] share = new float[counts.length][columns.count()];
    int[][] copy = new int[counts.length][];
    for (int c = 0; c < counts.length; c++) {
      copy[c] = counts[c].clone();
      for (int i = 0; i < columns.count(); i++) {
        long length = columns.start(i + 1) - columns.start(i);
        share[c][i] = Math.min(1f, changed[c][i] / (float) length);
      }
    }
    return new EditDensity(columns.frames(), rate, copy, share);
  }
}
