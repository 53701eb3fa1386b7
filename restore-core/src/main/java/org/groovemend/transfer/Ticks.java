package org.groovemend.transfer;

import java.util.List;

/**
 * Short pulses of a side.
 *
 * @param seconds in which they were counted
 * @param bySize for each channel: small, medium, large, by {@link TickMeter#SMALL_DBFS} and {@link
 *     TickMeter#LARGE_DBFS}
 */
public record Ticks(double seconds, List<List<Long>> bySize) {
  public Ticks {
    bySize = bySize.stream().map(List::copyOf).toList();
  }

  /** Ticks of a channel, a minute. */
  public double perMinute(int channel) {
    long sum = 0;
    for (long n : bySize.get(channel)) {
      sum += n;
    }
    return seconds > 0 ? 60 * sum / seconds : Double.NaN;
  }

  /** Ticks of all channels, a minute. */
  public double perMinute() {
    double sum = 0;
    for (int c = 0; c < bySize.size(); c++) {
      sum += perMinute(c);
    }
    return sum;
  }
}
