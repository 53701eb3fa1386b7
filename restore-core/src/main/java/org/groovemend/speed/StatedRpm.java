package org.groovemend.speed;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Turns a minute as a person writes them. A decimal number that is a standard speed rounded, such
 * as 33.33 or 78.26, is that speed: 100/3, 7200/92. Strobe speeds are 120 times the line frequency
 * over the number of bars (check-values, section 6).
 *
 * @param turnsPerMinute exact
 * @param words how it is told to people
 */
public record StatedRpm(double turnsPerMinute, String words) {

  /** Least and most that a disc turns. */
  private static final double SLOWEST = 10;

  private static final double FASTEST = 120;

  private static final Pattern MIXED = Pattern.compile("(\\d{1,3})[ -](\\d{1,3})/(\\d{1,3})");
  private static final Pattern DECIMAL = Pattern.compile("\\d{1,3}(\\.\\d{1,12})?");

  /** What is not a whole number; 78.26 and 77.92 are 92 bars at 60 Hz and 77 at 50 Hz. */
  private static final double[] STANDARD = {50.0 / 3, 100.0 / 3, 7200.0 / 92, 6000.0 / 77};

  /**
   * Reads a speed.
   *
   * @param text "33 1/3", "33.333", "45", "78.26"
   * @throws IllegalArgumentException if that is no speed of a disc
   */
  public static StatedRpm parse(String text) {
    Matcher mixed = MIXED.matcher(text.strip());
    double rpm = Double.NaN;
    if (mixed.matches()) {
      rpm =
          Integer.parseInt(mixed.group(1))
              + Integer.parseInt(mixed.group(2)) / (double) Integer.parseInt(mixed.group(3));
    } else if (DECIMAL.matcher(text.strip()).matches()) {
      rpm = nearestStandard(new BigDecimal(text.strip()));
    }
    if (!(rpm >= SLOWEST && rpm <= FASTEST)) {
      throw new IllegalArgumentException(
          "\""
              + text
              + "\" is no speed of a disc; give turns a minute from 10 to 120, such as 33.333, 45 or 78.26");
    }
    return new StatedRpm(rpm, String.format(Locale.ROOT, "%.4f rpm", rpm));
  }

  private static double nearestStandard(BigDecimal written) {
    if (written.scale() > 0) {
      for (double standard : STANDARD) {
        BigDecimal exact = new BigDecimal(standard);
        if (exact.setScale(written.scale(), RoundingMode.HALF_UP).compareTo(written) == 0
            || exact.setScale(written.scale(), RoundingMode.DOWN).compareTo(written) == 0) {
          return standard;
        }
      }
    }
    return written.doubleValue();
  }
}
