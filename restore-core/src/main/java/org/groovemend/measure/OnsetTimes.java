package org.groovemend.measure;

import java.util.function.LongConsumer;
import org.groovemend.audio.AudioFormat;

/**
 * Tells where notes begin in a side that comes by in order.
 *
 * <p>Energy above 300 Hz in cells of 5 ms: an onset is where the mean square of 20 ms is at least 6
 * dB over that of the 50 ms before and 12 dB over the groove's, stays 3 dB over for 30 ms more (a
 * tick does not), and nothing within 50 ms rises more. It is the rule of {@link OnsetsAndDecays},
 * which compares two sides there; here the places are wanted. Detection by the rise of energy is
 * the simplest of the functions in Bello et al., "A Tutorial on Onset Detection in Music Signals",
 * IEEE Trans. Speech and Audio Processing 13(5), 2005; the limits are the project's own.
 *
 * <p>Nothing is allocated once it runs; any cutting into blocks tells the same places.
 */
public final class OnsetTimes {

  private static final int PER_SECOND = 200;
  private static final int ATTACK = PER_SECOND / 50;
  private static final int PRE = PER_SECOND / 20;
  private static final int STAY = 10;
  private static final int HISTORY = 64;

  /** Cells that must have come behind the one in question. */
  private static final int AHEAD = PRE + STAY;

  private static final double RISE = 4;
  private static final double STAYS = 2;
  private static final double OVER_GROOVE = 15.8;
  private static final double CORNER_HERTZ = 300;

  /** Power below which nothing is an onset: -80 dBFS; dither of 16 bits lies below. */
  private static final double LEAST = 1e-8;

  private final HighPass[] filters;
  private final int cellFrames;
  private final double groove;
  private final LongConsumer sink;
  private final double[] cells = new double[HISTORY];
  private double sum;
  private int filled;
  private long cell;

  /**
   * Begins a side.
   *
   * @param format at 2 kHz or more
   * @param groovePower mean square of the bare groove, mean of the channels; 0 if unknown
   * @param sink is told the first frame of each onset, in order
   */
  public OnsetTimes(AudioFormat format, double groovePower, LongConsumer sink) {
    this.cellFrames = Math.max(1, format.sampleRateHz() / PER_SECOND);
    this.groove = groovePower;
    this.sink = sink;
    this.filters = new HighPass[format.channels()];
    double corner = Math.min(CORNER_HERTZ, format.sampleRateHz() / 8.0);
    for (int c = 0; c < filters.length; c++) {
      filters[c] = new HighPass(corner, format.sampleRateHz());
    }
  }

  /**
   * The next frames.
   *
   * @param samples by channel, full scale 1
   */
  public void accept(double[][] samples, int count) {
    for (int done = 0; done < count; ) {
      int n = Math.min(count - done, cellFrames - filled);
      for (int c = 0; c < filters.length; c++) {
        add(filters[c], samples[c], done, done + n);
      }
      done += n;
      filled += n;
      if (filled == cellFrames) {
        finish();
      }
    }
  }

  private void add(HighPass filter, double[] v, int from, int to) {
    double s = sum;
    for (int i = from; i < to; i++) {
      double y = filter.next(v[i]);
      s += y * y;
    }
    sum = s;
  }

  private void finish() {
    cells[(int) (cell % HISTORY)] = sum / ((double) cellFrames * filters.length);
    sum = 0;
    filled = 0;
    cell++;
    long asked = cell - AHEAD;
    if (asked >= 2L * PRE && isOnset(asked)) {
      sink.accept(asked * cellFrames);
    }
  }

  private boolean isOnset(long at) {
    double before = mean(at - PRE, at);
    double first = mean(at, at + ATTACK);
    double rise = first / (before + LEAST);
    if (!(rise >= RISE && first >= OVER_GROOVE * groove + LEAST)
        || !(mean(at + ATTACK, at + STAY) >= STAYS * before)) {
      return false;
    }
    for (int i = 1; i <= PRE; i++) {
      if (rise(at - i) >= rise || rise(at + i) > rise) {
        return false;
      }
    }
    return true;
  }

  private double rise(long at) {
    return mean(at, at + ATTACK) / (mean(at - PRE, at) + LEAST);
  }

  private double mean(long from, long to) {
    double s = 0;
    for (long i = from; i < to; i++) {
      s += cells[(int) (i % HISTORY)];
    }
    return s / (to - from);
  }
}
