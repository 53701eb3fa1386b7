package org.groovemend.leadin;

import java.util.Arrays;
import java.util.List;

/**
 * Tells tones from noise: over about a second, the mean spectrum of noise is smooth, while a tone
 * stands out of the median of the lines around it. Mains hum and its lower harmonics are no music;
 * below 400 Hz lines are therefore not tested.
 */
public final class ToneTest {

  private static final double LOWEST_HZ = 400;
  private static final double HIGHEST_HZ = 16_000;
  private static final double WINDOW_SECONDS = 0.75;

  /**
   * Standard deviations of the mean a line must stand out by, beside a fixed part for the shape of
   * the spectrum.
   */
  private static final double DEVIATIONS = 6.5;

  private static final double SHAPE_DB = 1.0;
  private static final int REACH = 6;

  private final int first;
  private final int last;
  private final double lineHz;

  /**
   * @param lineHz distance of the lines
   * @param lines of a spectrum, from 0 Hz on
   */
  public ToneTest(double lineHz, int lines) {
    this.lineHz = lineHz;
    this.first = Math.max(REACH + 1, (int) Math.ceil(LOWEST_HZ / lineHz));
    this.last = Math.min(lines - 1 - REACH, (int) (HIGHEST_HZ / lineHz));
  }

  /** End of the part from {@code from} on that shows no tones, at most {@code to}. */
  int toneFreeEnd(List<Slice> slices, int from, int to, int least) {
    double sliceSeconds = 2.0 * SliceReader.BLOCKS / (2.0 * lineHz);
    int span = Math.max(least, (int) Math.round(WINDOW_SECONDS / sliceSeconds));
    span = Math.min(span, to - from);
    if (span < 1) {
      return to;
    }
    for (int s = from; s + span <= to; s++) {
      if (tonal(slices, s, s + span)) {
        // the tone lies in what this window has and the one before had not
        return s == from ? from : s + span - 1;
      }
    }
    return to;
  }

  private boolean tonal(List<Slice> slices, int from, int to) {
    double[] mean = new double[last + REACH + 1];
    for (int i = from; i < to; i++) {
      float[] line = slices.get(i).line();
      for (int k = first - REACH; k < mean.length; k++) {
        mean[k] += line[k];
      }
    }
    return tonal(mean, (to - from) * 3.0);
  }

  /**
   * Whether a mean spectrum holds a tone.
   *
   * @param mean power of each line up to 16 kHz, in any unit
   * @param blocks spectra of independent stretches that it is the mean of
   */
  public boolean tonal(double[] mean, double blocks) {
    double limitDb = SHAPE_DB + DEVIATIONS * 4.343 / Math.sqrt(blocks);
    double limit = StrictMath.pow(10, limitDb / 10);
    double[] sorted = new double[2 * REACH + 1];
    for (int k = first; k < last; k++) {
      System.arraycopy(mean, k - REACH, sorted, 0, sorted.length);
      Arrays.sort(sorted);
      if (mean[k] > limit * sorted[REACH]) {
        return true;
      }
    }
    return false;
  }
}
