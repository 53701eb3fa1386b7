package org.groovemend.job.account;

import java.util.Locale;

/** Quantities as people say them, each with its unit. */
final class PlainWords {

  private PlainWords() {}

  /** "1 place", "2,345 places". */
  static String count(long number, String one, String many) {
    return String.format(Locale.ROOT, "%,d %s", number, number == 1 ? one : many);
  }

  /** "3 min 20 s", "1.4 s", "12 thousandths of a second". */
  static String duration(double seconds) {
    if (seconds >= 60) {
      long whole = Math.round(seconds);
      return whole / 60 + " min " + whole % 60 + " s";
    }
    if (seconds >= 0.1) {
      return String.format(Locale.ROOT, "%.1f s", seconds);
    }
    long thousandths = Math.max(1, Math.round(seconds * 1000));
    return thousandths == 1
        ? "one thousandth of a second"
        : thousandths + " thousandths of a second";
  }

  /** A moment of the side: "at 1 min 23 s". */
  static String moment(double seconds) {
    long whole = (long) seconds;
    return whole < 60 ? "at " + whole + " s" : "at " + whole / 60 + " min " + whole % 60 + " s";
  }

  /** "nearly every sample", "1 in 48", "none". */
  static String share(long part, double whole) {
    if (part == 0) {
      return "none";
    }
    double share = part / whole;
    if (share > 0.95) {
      return "nearly all";
    }
    return share > 0.1
        ? Math.round(100 * share) + " in 100"
        : String.format(Locale.ROOT, "1 in %,d", Math.round(1 / share));
  }

  /**
   * How strong something is beside something else: "a 20th as strong as", "1.4 times as strong as".
   */
  static String strength(double ratio) {
    if (ratio >= 1.95) {
      return String.format(Locale.ROOT, "%.0f times as strong as", ratio);
    }
    if (ratio >= 0.95) {
      return ratio < 1.05
          ? "as strong as"
          : String.format(Locale.ROOT, "%.1f times as strong as", ratio);
    }
    if (ratio >= 0.1) {
      return String.format(Locale.ROOT, "%.0f %% as strong as", 100 * ratio);
    }
    return ratio > 0
        ? String.format(Locale.ROOT, "1/%,d as strong as", Math.round(1 / ratio))
        : "nothing beside";
  }
}
