package org.groovemend.report;

/**
 * One thing known about the side, in words and number.
 *
 * @param label what it is: "Noise of the lead-in, left"
 * @param value as it is to be printed; "unknown" rather than empty
 * @param unit of the value, empty if it has none
 * @param sentence what it means or how it was found, empty if nothing need be said
 */
public record Fact(String label, String value, String unit, String sentence) {

  public static Fact of(String label, String value, String unit) {
    return new Fact(label, value, unit, "");
  }
}
