package org.groovemend.limits;

import java.util.Locale;

/** What a finding asks of people; the later the more. */
public enum Judgement {
  /** Nothing. */
  FINE,
  /** It could not be told. */
  UNKNOWN,
  /** A person should look or listen. */
  LOOK,
  /** The transfer should be made again, while the disc is at hand. */
  REDO;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The graver of two. */
  public Judgement or(Judgement other) {
    return compareTo(other) >= 0 ? this : other;
  }
}
