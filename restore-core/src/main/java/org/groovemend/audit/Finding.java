package org.groovemend.audit;

import java.util.Map;

/**
 * One thing that became of the recording.
 *
 * @param kind what it is
 * @param words one sentence for people
 * @param confidence how sure it is, 0 to 1; the page on audits says what it is made of
 * @param figures by name, with their units in the names
 */
public record Finding(Kind kind, String words, double confidence, Map<String, Object> figures) {

  public Finding {
    figures = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(figures));
  }

  /** Kinds, in the order in which they are told. */
  public enum Kind {
    SPEED,
    RATE,
    PLACE,
    CHANNELS,
    POLARITY,
    GAIN,
    DEPTH,
    FILTER,
    NOISE_REDUCTION,
    DYNAMICS,
    LEVEL,
    CUT,
    INSERTION,
    LOCAL_CHANGES,
    REPLACED,
    SILENCED,
    CLIPPED,
    UNKNOWN
  }
}
