package org.groovemend.report;

import org.groovemend.audio.AudioFormat;

/**
 * Gathers an {@link Envelope} from a side that comes by in order; any cutting gives the same
 * result.
 *
 * <p>Memory depends on columns only. Allocates nothing after construction until {@link #build}.
 */
public final class EnvelopeBuilder {

  private final Columns columns;
  private final int rate;
  private final double[][] min;
  private final double[][] max;
  private final double[][] squares;
  private long position;
  private int column;
  private long columnEnd;

  /**
   * An empty outline of a side of known length.
   *
   * @param frames length of the side
   * @param columns wanted, 1 to 100,000
   */
  public EnvelopeBuilder(AudioFormat format, long frames, int columns) {
    this.columns = Columns.of(frames, columns);
    this.rate = format.sampleRateHz();
    int count = this.columns.count();
    this.min = new double[format.channels()][count];
    this.max = new double[format.channels()][count];
    this.squares = new double[format.channels()][count];
    for (int c = 0; c < min.length; c++) {
      java.util.Arrays.fill(min[c], Double.POSITIVE_INFINITY);
      java.util.Arrays.fill(max[c], Double.NEGATIVE_INFINITY);
    }
    this.columnEnd = count == 0 ? 0 : this.columns.start(1);
  }

  /**
   * The next frames of the side.
   *
   * @throws IllegalArgumentException if the side would become longer than stated
   */
  public void accept(double[][] samples, int offset, int count) {
    if (position + count > columns.frames()) {
      throw new IllegalArgumentException(
          "frame " + (position + count) + " is past the end, " + columns.frames());
    }
    int done = 0;
    while (done < count) {
      while (position == columnEnd) {
        column++;
        columnEnd = columns.start(column + 1);
      }
      int run = (int) Math.min(count - done, columnEnd - position);
      for (int c = 0; c < min.length; c++) {
        gather(samples[c], offset + done, run, c);
      }
      done += run;
      position += run;
    }
  }

  private void gather(double[] samples, int from, int run, int channel) {
    double low = min[channel][column];
    double high = max[channel][column];
    double sum = squares[channel][column];
    for (int i = from; i < from + run; i++) {
      double y = samples[i];
      // not Math.min and Math.max, which mind signed zeros and are many times slower
      low = y < low ? y : low;
      high = y > high ? y : high;
      sum += y * y;
    }
    min[channel][column] = low;
    max[channel][column] = high;
    squares[channel][column] = sum;
  }

  /**
   * The outline of the side, once all of it has been taken.
   *
   * @throws IllegalStateException if frames are missing
   */
  public Envelope build() {
    if (position != columns.frames()) {
      throw new IllegalStateException(position + " of " + columns.frames() + " frames were given");
    }
    int channels = min.length;
    int count = columns.count();
    float[][] low = new float[channels][count];
    float[][] high = new float[channels][count];
    float[][] rms = new float[channels][count];
    for (int c = 0; c < channels; c++) {
      for (int i = 0; i < count; i++) {
        low[c][i] = (float) min[c][i];
        high[c][i] = (float) max[c][i];
        rms[c][i] = (float) Math.sqrt(squares[c][i] / (columns.start(i + 1) - columns.start(i)));
      }
    }
    return new Envelope(columns.frames(), rate, low, high, rms);
  }
}
