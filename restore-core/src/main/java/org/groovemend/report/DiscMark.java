package org.groovemend.report;

/**
 * A repaired place on the disc, both walls taken together.
 *
 * @param kind what it was
 * @param frame where it begins
 * @param strength larger is stronger; only compared with others of its kind, NaN is the weakest
 */
public record DiscMark(Kind kind, long frame, double strength) {

  /** What was repaired, as the picture tells them apart. */
  public enum Kind {
    CLICK,
    CRACKLE,
    THUMP
  }
}
