package org.groovemend.bands;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Times as people write them: seconds, minutes:seconds, hours:minutes:seconds. */
public final class Clock {
  private static final Pattern TIME =
      Pattern.compile("(?:(?:(\\d{1,3}):)?(\\d{1,4}):)?(\\d{1,7}(?:\\.\\d{1,9})?)");

  private Clock() {}

  /** Whether a word can only be a time. */
  static boolean is(String text) {
    return text.contains(":") && TIME.matcher(text).matches();
  }

  /**
   * Seconds.
   *
   * @throws BandListException if it is no time
   */
  public static double seconds(String text) {
    Matcher m = TIME.matcher(text.strip());
    if (!m.matches()) {
      throw new BandListException("\"" + text + "\" is no time; write such as 3:07.250");
    }
    double seconds = Double.parseDouble(m.group(3));
    if (m.group(2) != null) {
      if (seconds >= 60 || m.group(1) != null && Integer.parseInt(m.group(2)) >= 60) {
        throw new BandListException("\"" + text + "\" has more than 59 minutes or seconds");
      }
      seconds += 60.0 * Integer.parseInt(m.group(2));
    }
    return m.group(1) == null ? seconds : seconds + 3600.0 * Integer.parseInt(m.group(1));
  }

  /** mm:ss.fff, minutes going on beyond 59. */
  public static String text(double seconds) {
    long ms = Math.round(seconds * 1000);
    return String.format(Locale.ROOT, "%02d:%02d.%03d", ms / 60_000, ms / 1000 % 60, ms % 1000);
  }
}
