package org.groovemend.click;

import java.util.Arrays;
import java.util.List;

/**
 * What the turntable tells of a place: a scratch crosses turn after turn, so that two of its ticks
 * say where the next one lies.
 *
 * <p>An instant stands in a row if two ticks and it follow one another at equal distances of about
 * a turn. The evidence is the share of this window's sure ticks that stand in a row with two
 * others, over the share of instants thrown down at random that would: a likelihood ratio measured
 * on the spot, so that it says nothing where there is no scratch, and little where ticks are dense.
 */
final class Recurrence {
  /** How far, as a share of a turn, a scratch may move from turn to turn. */
  private static final double DRIFT = 0.01;

  /** How far from where two ticks say may the third one lie. */
  private static final double WITHIN_SECONDS = 0.0005;

  private static final int INSTANTS = 1024;

  /** Most that it may tell: that music has the turntable's beat cannot be excluded. */
  private static final double MOST = 4;

  private final double turn;
  private final double within;
  private final long[] ticks;
  private final double evidence;

  /**
   * @param turnFrames frames of one turn; NaN if the speed is not known
   * @param sure gaps of each channel
   * @param from first frame of the window
   * @param to its end
   */
  Recurrence(double turnFrames, int rate, List<List<Gap>> sure, long from, long to) {
    turn = turnFrames;
    within = WITHIN_SECONDS * rate;
    if (!(turnFrames > 0) || to - from < 2 * turnFrames) {
      ticks = new long[0];
      evidence = 0;
      return;
    }
    long[] starts = sure.stream().flatMap(List::stream).mapToLong(Gap::start).sorted().toArray();
    int n = 0;
    for (long start : starts) {
      // one blow hits both walls
      if (n == 0 || start - starts[n - 1] > 8 * within) {
        starts[n++] = start;
      }
    }
    ticks = Arrays.copyOf(starts, n);
    double inRow = 0.5;
    for (long tick : ticks) {
      inRow += standsInRow(tick) ? 1 : 0;
    }
    double byChance = 0.5;
    for (int i = 0; i < INSTANTS; i++) {
      // evenly spread, no two in step with one another's turns
      double share = (i * 0.6180339887498949) % 1;
      byChance += standsInRow(from + (long) (share * (to - from))) ? 1 : 0;
    }
    double ratio = inRow / (n + 1) * (INSTANTS + 1) / byChance;
    evidence = n == 0 ? 0 : Math.max(0, Math.min(MOST, StrictMath.log(ratio)));
  }

  /** What is added to the log odds of a place that begins at {@code frame}. */
  double evidence(long frame) {
    return evidence > 0 && standsInRow(frame) ? evidence : 0;
  }

  private boolean standsInRow(long frame) {
    return row(frame, -1) || row(frame, 1);
  }

  private boolean row(long frame, int way) {
    double near = frame + way * turn * (1 - way * DRIFT);
    double far = frame + way * turn * (1 + way * DRIFT);
    for (int i = after(Math.min(near, far));
        i < ticks.length && ticks[i] <= Math.max(near, far);
        i++) {
      long distance = ticks[i] - frame;
      boolean between = way < 0 && tickAt(frame - distance);
      if (between || tickAt(ticks[i] + distance)) {
        return true;
      }
    }
    return false;
  }

  private boolean tickAt(long place) {
    int i = after(place - within);
    return i < ticks.length && ticks[i] <= place + within;
  }

  /** Index of the first tick at or after a place. */
  private int after(double place) {
    int i = Arrays.binarySearch(ticks, (long) Math.ceil(place));
    return i < 0 ? -i - 1 : i;
  }
}
