package org.groovemend.technical;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * What is stated of a disc.
 *
 * @param stated by property; empty texts are not there
 */
public record Disc(Map<DiscProperty, String> stated) {

  /**
   * Checks.
   *
   * @throws IllegalArgumentException if a number is none or not above 0, in a sentence
   */
  public Disc {
    Map<DiscProperty, String> tidy = new EnumMap<>(DiscProperty.class);
    stated.forEach(
        (property, text) -> {
          String value = text.strip();
          if (!value.isEmpty()) {
            if (property.number() && !positive(value)) {
              throw new IllegalArgumentException(
                  "The disc's "
                      + property.key()
                      + " is \""
                      + value
                      + "\"; give a number of "
                      + property.unit()
                      + " above 0.");
            }
            tidy.put(property, value);
          }
        });
    stated = Collections.unmodifiableMap(tidy);
  }

  /** Digits and a point only, so that the text can be written as it is. */
  private static boolean positive(String text) {
    return text.matches("[0-9]{1,6}(\\.[0-9]{1,6})?") && Double.parseDouble(text) > 0;
  }
}
