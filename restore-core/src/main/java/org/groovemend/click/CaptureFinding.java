package org.groovemend.click;

import java.util.Locale;
import org.groovemend.playback.CaptureCurve;

/**
 * How the transfer was made, as the side's own clicks tell it.
 *
 * @param verdict "riaa", "flat" or "undecided"
 * @param decibans weight of evidence for the playback curve against none, ten times the common
 *     logarithm of the odds at equal odds beforehand; negative for a flat transfer
 * @param certainDecibans the same without the click that speaks loudest for the verdict, as a
 *     magnitude; 0 if there was nothing to weigh
 * @param clicks places weighed, both walls taken together
 * @param forCurve how many of them spoke for the curve
 * @param forFlat how many against it
 * @param analysedSeconds how much of the side was looked at
 */
public record CaptureFinding(
    String verdict,
    double decibans,
    double certainDecibans,
    int clicks,
    int forCurve,
    int forFlat,
    double analysedSeconds) {
  /** The clicks do not say. */
  public static final String UNDECIDED = "undecided";

  /** Odds of 1,000 to 1 that a verdict needs. */
  public static final double LEAST_DECIBANS = 30;

  /** Nothing more than this is claimed, whatever the sum: clicks of a side are not independent. */
  private static final double MOST_SAID_DECIBANS = 40;

  /** What the click stages are to go by: {@link CaptureCurve#UNKNOWN} if undecided. */
  public CaptureCurve curve() {
    return switch (verdict) {
      case "riaa" -> CaptureCurve.RIAA;
      case "flat" -> CaptureCurve.FLAT;
      default -> CaptureCurve.UNKNOWN;
    };
  }

  /** One sentence or two for people. */
  public String inWords() {
    String counted =
        String.format(
            Locale.ROOT,
            "%d of %d clicks weighed speak for the playback curve, %d against",
            forCurve,
            clicks,
            forFlat);
    return switch (verdict) {
      case "riaa" ->
          "How the transfer was made was not stated; its clicks have the tails of the RIAA playback curve ("
              + odds()
              + ": "
              + counted
              + "), so they are sought and filled with the curve undone. If that is wrong, say --captured flat.";
      case "flat" ->
          "How the transfer was made was not stated; its clicks have no tails of a playback curve ("
              + odds()
              + ": "
              + counted
              + "), so it is treated as flat. If that is wrong, say --captured riaa.";
      default ->
          "How the transfer was made was not stated and its clicks do not tell ("
              + (clicks == 0 ? "none could be weighed" : counted)
              + "), so it is treated as flat. If it went through a playback curve, say which with --captured: clicks are then"
              + " repaired where they are short.";
    };
  }

  /** "odds about 3,000 to 1", at most "odds over 10,000 to 1". */
  private String odds() {
    return certainDecibans > MOST_SAID_DECIBANS
        ? "odds over 10,000 to 1"
        : String.format(
            Locale.ROOT,
            "odds about %,d,000 to 1",
            Math.round(StrictMath.pow(10, certainDecibans / 10) / 1000));
  }
}
