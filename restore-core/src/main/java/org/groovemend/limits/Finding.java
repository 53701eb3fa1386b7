package org.groovemend.limits;

import java.util.List;

/**
 * One thing found out about a transfer.
 *
 * @param id of the measure
 * @param label of the measure, for people
 * @param value number, or NaN if it is in words or unknown
 * @param text the value as people read it; "unknown" if it is
 * @param unit of the number, empty for none
 * @param limit the bounds in words, and where they are from
 * @param verdict what it asks for
 * @param confidence 0 to 1 that the measure itself is right; NaN if nobody knows
 * @param reason a sentence: how it was found, or why it could not be told
 * @param places in the file, the first of them if there are many
 */
public record Finding(
    String id,
    String label,
    double value,
    String text,
    String unit,
    StatedLimit limit,
    Judgement verdict,
    double confidence,
    String reason,
    List<Place> places) {

  /** Most places that are told. */
  public static final int MOST_PLACES = 50;

  /**
   * The limit that was applied.
   *
   * @param words its bounds, "none" if there are none
   * @param source where it is from
   */
  public record StatedLimit(String words, String source) {}

  public Finding {
    places =
        places.size() > MOST_PLACES
            ? List.copyOf(places.subList(0, MOST_PLACES))
            : List.copyOf(places);
  }
}
