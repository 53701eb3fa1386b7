package org.groovemend.review.door;

import java.util.HashMap;
import java.util.Map;
import java.util.regex.Pattern;

/** What stands behind the question mark: plain names and values, each name once. */
public final class Query {

  private static final Pattern PAIR = Pattern.compile("([a-z]{1,20})=([A-Za-z0-9.-]{1,40})");

  private final Map<String, String> values;

  private Query(Map<String, String> values) {
    this.values = values;
  }

  static Query parse(String raw) {
    Map<String, String> values = new HashMap<>();
    if (raw != null) {
      for (String pair : raw.split("&", -1)) {
        var parts = PAIR.matcher(pair);
        if (!parts.matches() || values.put(parts.group(1), parts.group(2)) != null) {
          throw new Refusal(400, "The address cannot be read.");
        }
      }
    }
    return new Query(values);
  }

  /**
   * A text.
   *
   * @throws Refusal if it is not there
   */
  public String text(String name) {
    String value = values.get(name);
    if (value == null) {
      throw new Refusal(400, "In the address, " + name + " is missing.");
    }
    return value;
  }

  /**
   * A whole number.
   *
   * @throws Refusal if it is not there or is none
   */
  public long whole(String name) {
    try {
      return Long.parseLong(text(name));
    } catch (NumberFormatException e) {
      throw new Refusal(400, "In the address, " + name + " is no whole number.");
    }
  }
}
