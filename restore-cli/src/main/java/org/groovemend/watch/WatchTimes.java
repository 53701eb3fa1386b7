package org.groovemend.watch;

import java.time.Duration;

/**
 * How long a file is waited for.
 *
 * @param settled size and time must not have changed for so long
 * @param patience a file that has not changed for so long is finished whatever its header says; not
 *     below {@code settled}
 */
public record WatchTimes(Duration settled, Duration patience) {
  public WatchTimes {
    if (settled.isNegative() || patience.compareTo(settled) < 0) {
      throw new IllegalArgumentException(settled + " settled, " + patience + " patience");
    }
  }
}
