package org.groovemend.limits;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * What a house accepts of one measure. Each bound may be missing (NaN, or an empty list).
 *
 * @param lookBelow below this a person should look
 * @param redoBelow below this the transfer should be made again
 * @param lookAbove above this a person should look
 * @param redoAbove above this the transfer should be made again
 * @param expected words that are fine, for measures in words
 * @param otherwise what another word asks for
 * @param source where the limit is from, or "common practice, no source"
 */
public record Limit(
    double lookBelow,
    double redoBelow,
    double lookAbove,
    double redoAbove,
    List<String> expected,
    Judgement otherwise,
    String source) {

  public Limit {
    expected = List.copyOf(expected);
    if (redoBelow > lookBelow || redoAbove < lookAbove) {
      throw new IllegalArgumentException(
          "the limit of redo lies within that of look; put it further out");
    }
    if (lookBelow > lookAbove) {
      throw new IllegalArgumentException(
          "lookBelow "
              + lookBelow
              + " lies above lookAbove "
              + lookAbove
              + ": nothing would be fine");
    }
    if (source.isBlank()) {
      throw new IllegalArgumentException(
          "source is empty; say where the limit is from, or \"common practice, no source\"");
    }
  }

  /** For a measure that is only written down. */
  public static Limit none() {
    return new Limit(
        Double.NaN,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        List.of(),
        Judgement.LOOK,
        "no limit: logged only");
  }

  /** True if nothing is asked of the measure. */
  public boolean isOpen() {
    return Double.isNaN(lookBelow)
        && Double.isNaN(redoBelow)
        && Double.isNaN(lookAbove)
        && Double.isNaN(redoAbove)
        && expected.isEmpty();
  }

  /** What a number asks for; NaN is unknown. */
  public Judgement of(double value) {
    if (Double.isNaN(value)) {
      return Judgement.UNKNOWN;
    }
    if (value < redoBelow || value > redoAbove) {
      return Judgement.REDO;
    }
    return value < lookBelow || value > lookAbove ? Judgement.LOOK : Judgement.FINE;
  }

  /** What a word asks for. */
  public Judgement of(String word) {
    return expected.isEmpty() || expected.contains(word) ? Judgement.FINE : otherwise;
  }

  /** The bounds in words. */
  public String inWords() {
    if (isOpen()) {
      return "none";
    }
    List<String> parts = new ArrayList<>();
    part(parts, "look below ", lookBelow);
    part(parts, "redo below ", redoBelow);
    part(parts, "look above ", lookAbove);
    part(parts, "redo above ", redoAbove);
    if (!expected.isEmpty()) {
      parts.add(String.join(" or ", expected) + ", else " + otherwise.key());
    }
    return String.join(", ", parts);
  }

  private static void part(List<String> parts, String words, double value) {
    if (!Double.isNaN(value)) {
      parts.add(
          words
              + (value == Math.rint(value) && Math.abs(value) < 1e9
                  ? String.format(Locale.ROOT, "%.0f", value)
                  : Double.toString(value)));
    }
  }
}
