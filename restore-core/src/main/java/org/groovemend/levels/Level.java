package org.groovemend.levels;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A level of a sine somewhere in the chain, in volts.
 *
 * @param volts root mean square, above 0
 */
public record Level(double volts) {

  /** 0 dBu: 1 mW in 600 ohm. */
  public static final double DBU_VOLTS = Math.sqrt(0.6);

  private static final Pattern FORM =
      Pattern.compile("([-+]?[0-9]*\\.?[0-9]+(?:[eE][-+]?[0-9]+)?)\\s*(\\S+)");

  public Level {
    if (!(volts > 0 && volts < 1e9)) {
      throw new IllegalArgumentException("a level of " + volts + " V has no decibels");
    }
  }

  public static Level ofDbV(double db) {
    return new Level(ratio(db));
  }

  public static Level ofDbu(double db) {
    return new Level(DBU_VOLTS * ratio(db));
  }

  /** True if the words are a number and a unit, and not perhaps a file. */
  public static boolean isQuantity(String text) {
    Matcher m = FORM.matcher(text);
    return m.matches() && m.group(2).toLowerCase(Locale.ROOT).matches("v|mv|uv|dbv|dbu|dbfs|cm/s");
  }

  /**
   * Reads "5mV", "-43.8dBu", "5cm/s" and so on.
   *
   * @param pickup voltage by velocity, for cm/s
   * @param fullScale what reaches 0 dBFS, for dBFS
   * @throws IllegalArgumentException if it is no quantity with such a unit
   */
  public static Level parse(String text, Pickup pickup, Level fullScale) {
    Matcher m = FORM.matcher(text.strip());
    if (!isQuantity(text.strip()) || !m.matches()) {
      throw new IllegalArgumentException(
          "\"" + text + "\" is not a level such as 5mV, -43.8dBu, -10dBV, -18dBFS or 5cm/s");
    }
    double value = Double.parseDouble(m.group(1));
    return switch (m.group(2).toLowerCase(Locale.ROOT)) {
      case "v" -> new Level(value);
      case "mv" -> new Level(value * 1e-3);
      case "uv" -> new Level(value * 1e-6);
      case "dbv" -> ofDbV(value);
      case "dbu" -> ofDbu(value);
      case "dbfs" -> fullScale.plus(value);
      default -> pickup.at(value);
    };
  }

  /** More by so many dB. */
  public Level plus(double db) {
    return new Level(volts * ratio(db));
  }

  public double dbV() {
    return db(volts);
  }

  public double dbu() {
    return db(volts / DBU_VOLTS);
  }

  /** In dB re another level. */
  public double over(Level other) {
    return db(volts / other.volts());
  }

  /** Of a sine. */
  public double peakVolts() {
    return volts * Math.sqrt(2);
  }

  static double ratio(double db) {
    return StrictMath.pow(10, db / 20);
  }

  static double db(double ratio) {
    return 20 * StrictMath.log10(ratio);
  }
}
