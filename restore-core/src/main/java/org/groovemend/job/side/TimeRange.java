package org.groovemend.job.side;

/**
 * A stretch of a side in seconds, as people state it.
 *
 * @param fromSeconds 0 or later
 * @param toSeconds later than {@code fromSeconds}
 */
public record TimeRange(double fromSeconds, double toSeconds) {

  public TimeRange {
    if (!(fromSeconds >= 0) || !(toSeconds > fromSeconds) || Double.isInfinite(toSeconds)) {
      throw new IllegalArgumentException(
          "range "
              + fromSeconds
              + "-"
              + toSeconds
              + " is not two times in seconds, the earlier first");
    }
  }

  /**
   * Reads "0.8-3.1".
   *
   * @throws IllegalArgumentException if it is anything else; the message shows the form
   */
  public static TimeRange parse(String text) {
    String[] parts = text.trim().split("\\s*-\\s*", -1);
    if (parts.length == 2) {
      try {
        return new TimeRange(Double.parseDouble(parts[0]), Double.parseDouble(parts[1]));
      } catch (NumberFormatException notNumbers) {
        // told below
      }
    }
    throw new IllegalArgumentException(
        "\"" + text + "\" is not a range in seconds such as 0.8-3.1");
  }
}
