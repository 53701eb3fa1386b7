package org.groovemend.plays;

import java.util.Arrays;

/**
 * A place in one channel, or places that meet several channels at once.
 *
 * @param starts first frames by channel; of no meaning where the end is not behind it
 * @param ends ends by channel
 */
record SpanGroup(int[] starts, int[] ends) {

  boolean holds(int channel) {
    return ends[channel] > starts[channel];
  }

  int start(int channel) {
    return starts[channel];
  }

  int end(int channel) {
    return ends[channel];
  }

  /** First frame of all. */
  int start() {
    int start = Integer.MAX_VALUE;
    for (int c = 0; c < starts.length; c++) {
      start = holds(c) ? Math.min(start, starts[c]) : start;
    }
    return start;
  }

  /** End of all. */
  int end() {
    return Arrays.stream(ends).max().orElse(0);
  }

  /** True if the other has damage in another channel at the same time. */
  boolean meets(SpanGroup other) {
    for (int c = 0; c < starts.length; c++) {
      if (other.holds(c) && holds(c)) {
        return false;
      }
    }
    return other.start() < end() && start() < other.end();
  }

  SpanGroup and(SpanGroup other) {
    int[] from = starts.clone();
    int[] to = ends.clone();
    for (int c = 0; c < from.length; c++) {
      if (other.holds(c)) {
        from[c] = other.starts[c];
        to[c] = other.ends[c];
      }
    }
    return new SpanGroup(from, to);
  }
}
