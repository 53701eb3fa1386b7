package org.groovemend.cartridge;

import java.util.Locale;

/**
 * How a pick-up was loaded and how it should have been, as a person states it.
 *
 * <p>{@code MH/OHM:OHM/PF:OHM/PF}: inductance and resistance of the coil, load resistance and
 * capacitance as captured, the same as they should have been, such as {@code
 * 500/800:47000/250:47000/150}; {@code flat} for the last asks for no change of the treble at all;
 * {@code none} for no correction.
 *
 * @param text as stated
 * @param actual as it was captured, or null for no correction
 * @param ideal as it should have been, or null for no change of the treble at all
 */
public record ChosenLoading(String text, LoadedCoil actual, LoadedCoil ideal) {

  /** No correction. */
  public static final String NONE = "none";

  private static final String FLAT = "flat";
  private static final String FORM =
      "MH/OHM:OHM/PF:OHM/PF, coil, load as captured, load it should have been, such as 500/800:47000/250:47000/150";

  /**
   * Reads it.
   *
   * @throws IllegalArgumentException if it is not of that form, or a number is out of range
   */
  public static ChosenLoading of(String text) {
    String said = text.strip().toLowerCase(Locale.ROOT);
    if (said.equals(NONE)) {
      return new ChosenLoading(NONE, null, null);
    }
    String[] parts = said.split(":", -1);
    if (parts.length != 3) {
      throw new IllegalArgumentException("loading \"" + text + "\" is not none, nor " + FORM);
    }
    double[] coil = two(parts[0], text);
    double[] load = two(parts[1], text);
    LoadedCoil actual = new LoadedCoil(1e-3 * coil[0], coil[1], load[0], 1e-12 * load[1]);
    if (parts[2].equals(FLAT)) {
      return new ChosenLoading(said, actual, null);
    }
    double[] other = two(parts[2], text);
    return new ChosenLoading(said, actual, actual.into(other[0], 1e-12 * other[1]));
  }

  private static double[] two(String part, String text) {
    String[] numbers = part.split("/", -1);
    try {
      if (numbers.length == 2) {
        return new double[] {Double.parseDouble(numbers[0]), Double.parseDouble(numbers[1])};
      }
    } catch (NumberFormatException e) {
      // told below
    }
    throw new IllegalArgumentException(
        "loading \"" + text + "\": \"" + part + "\" is not two numbers; the form is " + FORM);
  }

  public boolean isNone() {
    return actual == null;
  }

  /**
   * The correction.
   *
   * @throws IllegalArgumentException if it needs more gain than that up to that frequency, or there
   *     is none
   */
  public LoadCorrection correction(double mostDb, double upToHertz) {
    if (isNone()) {
      throw new IllegalArgumentException("no loading is stated");
    }
    return new LoadCorrection(actual, ideal, mostDb, upToHertz);
  }

  /** For people: coil, both loads. */
  public String inWords() {
    return isNone()
        ? "none"
        : String.format(
            Locale.ROOT,
            "a coil of %.4g mH and %.4g ohm, captured into %s, as if into %s",
            1e3 * actual.henry(),
            actual.coilOhms(),
            load(actual),
            ideal == null ? "a load that leaves its treble as it is" : load(ideal));
  }

  private static String load(LoadedCoil coil) {
    return String.format(Locale.ROOT, "%.5g ohm and %.4g pF", coil.loadOhms(), 1e12 * coil.farad());
  }
}
