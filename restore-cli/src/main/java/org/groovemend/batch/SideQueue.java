package org.groovemend.batch;

import java.util.ArrayDeque;
import java.util.Collection;
import java.util.Deque;

/** Sides that wait, the longest first, and how many threads each is to get. */
final class SideQueue {

  /**
   * A side whose turn it is.
   *
   * @param hands 1, or all threads if it is longer than its share of all that waits: it would still
   *     be under work alone when the rest is done
   */
  record Next(PlannedSide side, int hands) {}

  private final Deque<PlannedSide> waiting;
  private final int threads;
  private final int planned;
  private double seconds;

  SideQueue(Collection<PlannedSide> sides, int threads) {
    this.waiting = new ArrayDeque<>(sides);
    this.threads = threads;
    this.planned = sides.size();
    this.seconds = sides.stream().mapToDouble(PlannedSide::expectedSeconds).sum();
  }

  /** The next side, null if there is none. */
  synchronized Next next() {
    PlannedSide side = waiting.poll();
    if (side == null) {
      return null;
    }
    boolean tooLong = side.expectedSeconds() * threads > seconds * (1 + 1e-9);
    seconds -= side.expectedSeconds();
    return new Next(side, tooLong ? threads : 1);
  }

  /** Sides that still wait. */
  synchronized int size() {
    return waiting.size();
  }

  /** Sides there were. */
  int planned() {
    return planned;
  }
}
