package org.groovemend.report;

import java.util.Locale;

/** Numbers as the page prints them. */
final class Printed {

  private Printed() {}

  static String count(long value) {
    return String.format(Locale.ROOT, "%,d", value);
  }

  /** A level; nothing at all is said in words. */
  static String dbfs(double value) {
    if (Double.isNaN(value) || value == Double.NEGATIVE_INFINITY) {
      return "none";
    }
    return String.format(Locale.ROOT, "%.1f dBFS", value);
  }

  static String number(double value, int decimals) {
    if (Double.isNaN(value)) {
      return "unknown";
    }
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }

  /** h:mm:ss.mmm, without hours below one hour; from integers, so no rounding to 60 seconds. */
  static String time(long frame, int rate) {
    long millis = Math.round(frame * 1000.0 / rate);
    long seconds = millis / 1000;
    long hours = seconds / 3600;
    String rest =
        String.format(
            Locale.ROOT,
            hours > 0 ? "%02d:%02d.%03d" : "%d:%02d.%03d",
            seconds / 60 % 60,
            seconds % 60,
            millis % 1000);
    return hours > 0 ? hours + ":" + rest : rest;
  }
}
