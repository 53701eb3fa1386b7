package org.groovemend.click;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.SegmentWindow;

/**
 * Damage too long to be filled: nothing is invented there, and a person is told.
 *
 * <p>Two kinds are known. Gaps that touch one another, so that no sound sample is left in more than
 * {@link #LONGEST_RUN_MILLISECONDS}; and bursts, where the treble (second difference) rises at once
 * by 20 dB or more, stays, and ends as suddenly. Sound that is struck or plucked dies away instead.
 * One instance per thread.
 */
final class LongPlaces {
  /** The most that may be asked for as longest repair. */
  static final double LONGEST_RUN_MILLISECONDS = 20;

  private static final double STEP_SECONDS = 0.0005;

  /** Steps before and after a burst that must be quiet: 10 ms. */
  private static final int AROUND = 20;

  /** Steps of the longest burst: 150 ms. */
  private static final int MOST = 300;

  /** And of the shortest: 3 ms, so that its beginning and end can be told apart. */
  private static final int SHORTEST = 6;

  /** Power of a burst over what is about it. */
  private static final double RISE = 100;

  /** Power that still belongs to it, over what is before it. */
  private static final double STAY = 10;

  /** Share of its mean power that a burst has at its end, and that no millisecond falls below. */
  private static final double AT_END = 0.3;

  private static final double NEVER_BELOW = 0.05;

  private final int step;
  private final int longest;
  private final int longestRun;
  private final double floor;
  private double[] power = new double[0];
  private final List<LeftAlone> known = new ArrayList<>();
  private final List<LeftAlone> ofSegment = new ArrayList<>();

  /**
   * @param floor least standard deviation of the signal's error, full scale 1.0
   */
  LongPlaces(ClickGeometry g, int rate, double floor) {
    step = (int) Math.round(STEP_SECONDS * rate);
    longest = g.longest();
    longestRun = Math.max(longest, (int) (LONGEST_RUN_MILLISECONDS * rate / 1000));
    // a second difference of white noise has six times its variance
    this.floor = 6 * floor * floor * step;
  }

  void clear() {
    known.clear();
    ofSegment.clear();
  }

  /** Notes the long places of one channel that concern the segment. */
  void find(SegmentWindow w, int channel, ClickDetector detector, List<Gap> gaps) {
    List<LeftAlone> found = new ArrayList<>();
    bursts(w, channel, detector, found);
    runs(channel, gaps, found);
    found.sort((p, q) -> Long.compare(p.start(), q.start()));
    LeftAlone last = null;
    for (LeftAlone place : found) {
      if (last != null && place.start() <= last.end()) {
        last = new LeftAlone(channel, last.start(), Math.max(last.end(), place.end()));
        known.set(known.size() - 1, last);
      } else {
        last = place;
        known.add(last);
      }
    }
    for (LeftAlone place : known) {
      if (place.channel() == channel
          && place.start() >= w.segmentStart()
          && place.start() < w.segmentEnd()) {
        ofSegment.add(place);
      }
    }
  }

  /** True if a gap lies in one of them, even in part. */
  boolean touch(int channel, Gap g) {
    for (LeftAlone place : known) {
      if (place.channel() == channel && g.start() < place.end() && g.end() > place.start()) {
        return true;
      }
    }
    return false;
  }

  /** Those that start in the segment. */
  List<LeftAlone> ofSegment() {
    return List.copyOf(ofSegment);
  }

  private void runs(int channel, List<Gap> gaps, List<LeftAlone> found) {
    for (int i = 0; i < gaps.size(); ) {
      long start = gaps.get(i).start();
      long end = gaps.get(i).end();
      boolean tooLong = gaps.get(i).frames() > longest;
      int next = i + 1;
      while (next < gaps.size() && gaps.get(next).start() <= end) {
        tooLong |= gaps.get(next).frames() > longest;
        end = Math.max(end, gaps.get(next).end());
        next++;
      }
      if (tooLong || end - start > longestRun) {
        found.add(new LeftAlone(channel, start, end));
      }
      i = next;
    }
  }

  private void bursts(SegmentWindow w, int channel, ClickDetector detector, List<LeftAlone> found) {
    // a burst that began before the segment also matters to the gaps in it
    long firstStep = Math.floorDiv(w.segmentStart(), step) - MOST - AROUND;
    long lastStep = Math.floorDiv(w.segmentEnd(), step) + MOST + AROUND;
    long lowest = (detector.frame(detector.validFrom()) + 2 + step - 1) / step;
    long highest = detector.frame(detector.validTo()) / step;
    firstStep = Math.max(firstStep, lowest);
    lastStep = Math.min(lastStep, highest);
    int count = (int) Math.max(0, lastStep - firstStep);
    if (power.length < count) {
      power = new double[count];
    }
    measure(detector.flat(channel), detector.index(firstStep * step), count);
    for (int k = AROUND; k + 1 < count; k++) {
      double before = most(k - AROUND, k - 1);
      if (power[k] < RISE * before) {
        continue;
      }
      int end = end(k, count, before);
      if (end > 0) {
        found.add(new LeftAlone(channel, (firstStep + k) * step, (firstStep + end) * (long) step));
        k = end;
      }
    }
  }

  private void measure(double[] x, int at, int count) {
    for (int k = 0; k < count; k++) {
      double sum = floor;
      int to = at + (k + 1) * step;
      for (int n = to - step; n < to; n++) {
        double d = x[n] - 2 * x[n - 1] + x[n - 2];
        sum += d * d;
      }
      power[k] = sum;
    }
  }

  /** End of the burst that begins at step {@code k}; 0 if it is none. */
  private int end(int k, int count, double before) {
    double stays = STAY * before;
    int end = k;
    while (end + 1 < count && end - k <= MOST && Math.max(power[end], power[end + 1]) > stays) {
      end++;
    }
    if ((end - k) * (long) step <= longest
        || end - k < SHORTEST
        || end - k > MOST
        || end + AROUND > count
        || most(end + 1, end + AROUND) > stays) {
      return 0;
    }
    double mean = Arrays.stream(power, k, end).sum() / (end - k);
    double last = (power[end - 3] + power[end - 2] + power[end - 1]) / 3;
    boolean holds = mean > RISE * before && last > AT_END * mean;
    for (int i = k; i + 1 < end; i++) {
      holds &= Math.max(power[i], power[i + 1]) > NEVER_BELOW * mean;
    }
    return holds ? end : 0;
  }

  private double most(int from, int to) {
    double most = 0;
    for (int i = from; i < to; i++) {
      most = Math.max(most, power[i]);
    }
    return most;
  }
}
