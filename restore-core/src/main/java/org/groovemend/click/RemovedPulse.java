package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.RecursiveFilter;
import org.groovemend.stage.SegmentWindow;

/** A pulse on its way from the repair domain back through the curve. One instance per thread. */
final class RemovedPulse {
  /** Quiet stretch, in seconds, after which a removed tail is taken to have ended. */
  private static final double QUIET_SECONDS = 0.001;

  /** How far, in seconds, a repaired place is compared with the sound before and after. */
  private static final double CLOSE_SECONDS = 0.005;

  private static final double AROUND_SECONDS = 0.04;

  /** A repaired place higher than this, re the highest sample around, is not believed. */
  private static final double HIGHEST = 1.4;

  private final RecursiveFilter forward;
  private final double step;
  private final int rate;
  private final double quietest;
  private final double[] pulse;
  private final double[] tail;

  /**
   * @param longestGap most samples of a pulse before the curve
   * @param quietest peak of a pulse that nobody would hear, full scale 1.0
   */
  RemovedPulse(RepairDomain domain, AudioFormat format, int longestGap, double quietest) {
    this.forward = domain.forward();
    this.step = Math.max(format.quantumStep(), 0x1p-24) / 2;
    this.rate = format.sampleRateHz();
    this.quietest = quietest;
    this.pulse = new double[longestGap + rate / 4];
    this.tail = new double[pulse.length];
  }

  /** Frames from its start that are compared with what is about a place. */
  int close() {
    return (int) (CLOSE_SECONDS * rate);
  }

  int longest() {
    return tail.length;
  }

  /** The pulse to be filled in, all zero. */
  double[] begin() {
    Arrays.fill(pulse, 0);
    return pulse;
  }

  /**
   * The pulse as it was in the transfer, until it stays under half an output step.
   *
   * @param m samples of the pulse
   * @param most samples the result may have
   * @return empty if nobody would hear it
   */
  double[] throughCurve(int m, int most) {
    int length = m;
    double[] result = pulse;
    if (forward != null) {
      result = tail;
      length = equalise(m, most);
    }
    double peak = 0;
    for (int n = 0; n < length; n++) {
      peak = Math.max(peak, Math.abs(result[n]));
    }
    if (!(peak > quietest)) {
      return new double[0];
    }
    while (result[length - 1] == 0) {
      length--;
    }
    return Arrays.copyOf(result, length);
  }

  private int equalise(int m, int most) {
    int quiet = (int) (QUIET_SECONDS * rate);
    int done = 0;
    int last = m - 1;
    while (done < most) {
      int next = Math.min(most, done + quiet);
      forward.run(pulse, tail, 0, done, next);
      for (int n = done; n < next; n++) {
        if (Math.abs(tail[n]) >= step) {
          last = n;
        }
      }
      done = next;
      if (done > m + quiet && done > last + quiet) {
        break;
      }
    }
    return Math.min(most, last + 1);
  }

  /**
   * False if taking the pulse away would leave a place that is higher than it was, and higher than
   * the sound before and after.
   *
   * @param m samples of the gap, which begins at frame {@code start}
   */
  boolean plausible(SegmentWindow w, int channel, long start, int m, double[] removed) {
    double[] x = w.samples()[channel];
    int at = (int) (start - w.firstFrame());
    int end = Math.min(w.length(), at + m + close());
    int around = (int) (AROUND_SECONDS * rate);
    double was = 0;
    double is = 0;
    for (int n = at; n < end; n++) {
      was = Math.max(was, Math.abs(x[n]));
      is = Math.max(is, Math.abs(x[n] - (n - at < removed.length ? removed[n - at] : 0)));
    }
    double outside =
        Math.max(
            highest(x, Math.max(0, at - around), at),
            highest(x, end, Math.min(w.length(), end + around)));
    return is <= was || is <= HIGHEST * outside;
  }

  private static double highest(double[] x, int from, int to) {
    double most = 0;
    for (int n = from; n < to; n++) {
      most = Math.max(most, Math.abs(x[n]));
    }
    return most;
  }
}
