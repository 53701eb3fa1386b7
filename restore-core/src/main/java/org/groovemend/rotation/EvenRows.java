package org.groovemend.rotation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Finds rows of ticks at nearly equal distances: every pair of ticks is carried on, each next tick
 * being looked for where the ones before it say.
 */
final class EvenRows {

  /** How far from where it is looked for a tick may lie: detectors tell the start no better. */
  static final double WITHIN_SECONDS = 0.0005;

  /** A turn, or two, may go by without a tick. */
  private static final int MOST_TURNS = 3;

  private static final int MOST_TURNS_JOINED = 12;
  private static final double JOINED_WITHIN_SECONDS = 3 * WITHIN_SECONDS;

  private static final int FEWEST = 4;
  private static final int SLOPE_OVER = 4;
  private static final double RATE_WINDOW_SECONDS = 5;

  private final List<Tick> ticks;
  private final double[] times;
  private final double[] rate;
  private final double[] cost;
  private int[] members = new int[64];
  private int[] turns = new int[64];

  /**
   * @param ticks in order
   */
  EvenRows(List<Tick> ticks, int sampleRateHz) {
    this.ticks = List.copyOf(ticks);
    this.times = new double[ticks.size()];
    for (int i = 0; i < times.length; i++) {
      times[i] = ticks.get(i).frame() / (double) sampleRateHz;
    }
    this.rate = new double[times.length];
    this.cost = new double[times.length];
    int from = 0;
    int to = 0;
    for (int i = 0; i < times.length; i++) {
      while (times[i] - times[from] > RATE_WINDOW_SECONDS) {
        from++;
      }
      while (to < times.length && times[to] - times[i] <= RATE_WINDOW_SECONDS) {
        to++;
      }
      double reach =
          Math.min(RATE_WINDOW_SECONDS, times[i] - times[0])
              + Math.min(RATE_WINDOW_SECONDS, times[times.length - 1] - times[i]);
      rate[i] = (to - from) / Math.max(reach, 1);
      // looked for at the next turn and, failing that, at those after it
      double chance = MOST_TURNS * 2 * WITHIN_SECONDS * rate[i];
      cost[i] = Math.max(0, -StrictMath.log(Math.min(1, chance)));
    }
  }

  /** Every row of at least {@value #FEWEST} whose distance lies between the two. */
  List<EvenRow> between(double shortest, double longest) {
    List<EvenRow> rows = new ArrayList<>();
    // what is part of a row found already would only be found again, shorter
    Set<Long> links = new HashSet<>();
    int first = 0;
    for (int i = 0; i < times.length; i++) {
      first = Math.max(first, i + 1);
      while (first < times.length && times[first] - times[i] < shortest) {
        first++;
      }
      for (int j = first; j < times.length && times[j] - times[i] <= longest; j++) {
        EvenRow row = links.contains(link(i, j)) ? null : carriedOn(i, j);
        if (row != null) {
          rows.add(row);
          for (int k = 1; k < row.members().length; k++) {
            links.add(link(row.members()[k - 1], row.members()[k]));
          }
        }
      }
    }
    return rows;
  }

  /** Where the ticks of a row lie. */
  List<Long> frames(EvenRow row) {
    List<Long> frames = new ArrayList<>();
    for (int member : row.members()) {
      frames.add(ticks.get(member).frame());
    }
    return frames;
  }

  private static long link(int from, int to) {
    return (long) from << Integer.SIZE | to;
  }

  private EvenRow carriedOn(int i, int j) {
    members[0] = i;
    members[1] = j;
    turns[0] = 0;
    turns[1] = 1;
    int count = 2;
    double surprise = 0;
    while (true) {
      int last = count - 1;
      int anchor = Math.max(0, last - SLOPE_OVER);
      double turn = (times[members[last]] - times[members[anchor]]) / (turns[last] - turns[anchor]);
      int step = 0;
      int next = -1;
      while (next < 0 && step < MOST_TURNS) {
        step++;
        next = near(times[members[last]] + step * turn);
      }
      if (next < 0) {
        break;
      }
      if (count == members.length) {
        members = Arrays.copyOf(members, 2 * count);
        turns = Arrays.copyOf(turns, 2 * count);
      }
      members[count] = next;
      turns[count] = turns[last] + step;
      count++;
      surprise += cost[next];
    }
    return count < FEWEST
        ? null
        : new EvenRow(
            slope(count), surprise, Arrays.copyOf(members, count), Arrays.copyOf(turns, count));
  }

  /**
   * Rows that go on where another ended, a few turns later, are one: there the ticks were too weak
   * or something else lay nearer.
   *
   * @param rows that share no tick
   */
  List<EvenRow> joined(List<EvenRow> rows) {
    List<EvenRow> left = new ArrayList<>(rows);
    left.sort(Comparator.comparingInt(row -> row.members()[0]));
    for (int i = 0; i < left.size(); i++) {
      for (int j = i + 1; j < left.size(); j++) {
        EvenRow whole = joined(left.get(i), left.get(j));
        if (whole != null) {
          left.set(i, whole);
          left.remove(j);
          j = i;
        }
      }
    }
    return left;
  }

  private EvenRow joined(EvenRow row, EvenRow next) {
    double pause = times[next.members()[0]] - times[row.members()[row.members().length - 1]];
    int apart = (int) Math.round(pause / row.period());
    if (apart < 1
        || apart > MOST_TURNS_JOINED
        || Math.abs(pause - apart * row.period()) > JOINED_WITHIN_SECONDS
        || Math.abs(pause - apart * next.period()) > JOINED_WITHIN_SECONDS) {
      return null;
    }
    int count = row.members().length;
    members = Arrays.copyOf(row.members(), count + next.members().length);
    turns = Arrays.copyOf(row.turns(), members.length);
    for (int k = 0; k < next.members().length; k++) {
      members[count + k] = next.members()[k];
      turns[count + k] = row.lastTurn() + apart + next.turns()[k];
    }
    return new EvenRow(
        slope(members.length), row.surprise() + next.surprise(), members.clone(), turns.clone());
  }

  /** Least squares of time over turn. */
  private double slope(int count) {
    double meanTurn = 0;
    double meanTime = 0;
    for (int k = 0; k < count; k++) {
      meanTurn += turns[k];
      meanTime += times[members[k]] - times[members[0]];
    }
    meanTurn /= count;
    meanTime /= count;
    double above = 0;
    double below = 0;
    for (int k = 0; k < count; k++) {
      double d = turns[k] - meanTurn;
      above += d * (times[members[k]] - times[members[0]] - meanTime);
      below += d * d;
    }
    return above / below;
  }

  /** Number of the nearest tick, or -1 if none lies within reach. */
  private int near(double time) {
    if (time < times[0] - WITHIN_SECONDS || time > times[times.length - 1] + WITHIN_SECONDS) {
      return -1;
    }
    int at = Arrays.binarySearch(times, time);
    if (at >= 0) {
      return at;
    }
    int after = -at - 1;
    int nearest = after;
    if (after == times.length || after > 0 && time - times[after - 1] <= times[after] - time) {
      nearest = after - 1;
    }
    return Math.abs(times[nearest] - time) <= WITHIN_SECONDS ? nearest : -1;
  }

  /**
   * How many rows at least so surprising random ticks would show.
   *
   * @param width of the stretch of periods, seconds
   */
  double expected(double surprise, double width) {
    double sum = 0;
    for (int i = 0; i < times.length; i++) {
      double begun = Math.min(rate[i] * width, 1);
      if (cost[i] <= 0) {
        sum += begun;
      } else {
        double links = Math.ceil(surprise / cost[i] - 1e-9);
        sum += begun * StrictMath.exp(-links * cost[i]);
      }
    }
    return sum;
  }
}
