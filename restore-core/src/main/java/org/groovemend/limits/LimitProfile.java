package org.groovemend.limits;

import java.util.Map;

/**
 * Limits for one kind of disc or one house.
 *
 * @param name short
 * @param about what it is for
 * @param limits by measure; what is missing is only written down
 */
public record LimitProfile(String name, String about, Map<Measure, Limit> limits) {
  public LimitProfile {
    limits = Map.copyOf(limits);
  }

  public Limit of(Measure measure) {
    return limits.getOrDefault(measure, Limit.none());
  }

  /** No limits at all: everything is only written down. */
  public static LimitProfile open() {
    return new LimitProfile("none", "no limits", Map.of());
  }
}
