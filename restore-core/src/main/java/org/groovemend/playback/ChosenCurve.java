package org.groovemend.playback;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A curve as a person states it.
 *
 * <p>{@code NAME} of the table; {@code TURNOVER/ROLLOFF} or {@code TURNOVER/ROLLOFF/SHELF}, hertz,
 * dB at 10 kHz, hertz, 0 for a term that the curve does not have; or {@code
 * us:SHELF,TURNOVER,TREBLE} in microseconds, with - for such a term.
 *
 * @param text as stated
 * @param curve its time constants
 * @param named the row of the table, or null if it was stated by numbers
 */
public record ChosenCurve(String text, PlaybackCurve curve, NamedCurve named) {

  /** No curve. */
  public static final String FLAT = "flat";

  private static final double LEAST_TURNOVER_HERTZ = 50;
  private static final double MOST_TURNOVER_HERTZ = 2000;
  private static final double MOST_ROLL_OFF_DB = 30;
  private static final Pattern BY_NUMBERS = Pattern.compile("[0-9./,+-]+");

  /**
   * Reads it.
   *
   * @throws UnknownCurveException if it is no name of the table, nor numbers
   * @throws IllegalArgumentException if the numbers make no curve
   */
  public static ChosenCurve of(String text) {
    String said = text.strip().toLowerCase(Locale.ROOT);
    Optional<NamedCurve> named = CurveTable.ofKey(said.equals("none") ? FLAT : said);
    if (named.isPresent()) {
      return new ChosenCurve(named.get().key(), named.get().curve(), named.get());
    }
    if (said.startsWith("us:")) {
      return new ChosenCurve(said, constants(said.substring(3), said), null);
    }
    if (said.contains("/") && BY_NUMBERS.matcher(said).matches()) {
      return new ChosenCurve(said, corners(said), null);
    }
    throw new UnknownCurveException(text);
  }

  private static PlaybackCurve constants(String list, String said) {
    String[] parts = list.split(",", -1);
    if (parts.length != 3) {
      throw new IllegalArgumentException(
          "curve \"" + said + "\" is not us:SHELF,TURNOVER,TREBLE, such as us:3180,318,75");
    }
    double[] t = new double[3];
    for (int i = 0; i < 3; i++) {
      t[i] = parts[i].equals("-") ? 0 : number(parts[i], said);
    }
    return new PlaybackCurve(t[0], t[1], t[2]);
  }

  private static PlaybackCurve corners(String said) {
    String[] parts = said.split("/", -1);
    if (parts.length > 3) {
      throw new IllegalArgumentException(
          "curve \"" + said + "\" is not TURNOVER/ROLLOFF or TURNOVER/ROLLOFF/SHELF");
    }
    double turnover = number(parts[0], said);
    // tables print it as a loss or as a gain
    double rollOff = Math.abs(number(parts[1], said));
    double shelf = parts.length == 3 ? number(parts[2], said) : 0;
    if (turnover != 0 && !(turnover >= LEAST_TURNOVER_HERTZ && turnover <= MOST_TURNOVER_HERTZ)) {
      throw new IllegalArgumentException(
          "curve \"" + said + "\": turnover " + parts[0] + " Hz is not 50 to 2000, nor 0 for none");
    }
    if (!(rollOff <= MOST_ROLL_OFF_DB)) {
      throw new IllegalArgumentException(
          "curve \"" + said + "\": roll-off " + parts[1] + " dB at 10 kHz is more than 30");
    }
    if (shelf != 0 && !(shelf >= 5 && shelf < turnover)) {
      throw new IllegalArgumentException(
          "curve \"" + said + "\": shelf " + parts[2] + " Hz is not 5 to the turnover, nor 0");
    }
    return new PlaybackCurve(
        PlaybackCurve.microseconds(shelf),
        PlaybackCurve.microseconds(turnover),
        PlaybackCurve.trebleOf(rollOff));
  }

  private static double number(String text, String said) {
    try {
      double value = Double.parseDouble(text);
      if (Double.isFinite(value)) {
        return value;
      }
    } catch (NumberFormatException e) {
      // told below
    }
    throw new IllegalArgumentException("curve \"" + said + "\": \"" + text + "\" is not a number");
  }

  /** Name and constants for people. */
  public String inWords() {
    return (named == null ? text : named.name()) + " (" + constantsInWords() + ")";
  }

  /** The time constants, such as "3180, 318 and 75 us". */
  public String constantsInWords() {
    if (curve.isFlat()) {
      return "no time constant";
    }
    StringBuilder words = new StringBuilder();
    add(words, curve.highPassMicroseconds(), "high-pass ");
    if (curve.endless()) {
      words.append(words.isEmpty() ? "" : ", ").append("no shelf");
    }
    add(words, curve.shelfMicroseconds(), "shelf ");
    add(words, curve.turnoverMicroseconds(), "turnover ");
    add(words, curve.trebleMicroseconds(), "treble ");
    return words.append(" us").toString();
  }

  private static void add(StringBuilder words, double constant, String name) {
    if (constant > 0) {
      words
          .append(words.isEmpty() ? "" : ", ")
          .append(name)
          .append(String.format(Locale.ROOT, constant < 1000 ? "%.4g" : "%.0f", constant));
    }
  }
}
