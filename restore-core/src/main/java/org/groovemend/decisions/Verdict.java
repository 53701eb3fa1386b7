package org.groovemend.decisions;

import java.util.Locale;

/** What is to become of an edit. */
public enum Verdict {
  /** It stays. */
  KEEP,
  /** It is taken back: the original samples are to be heard there. */
  UNDO,
  /** It stays until a person has looked at it again. */
  ASK;

  /** As it stands in files: {@code keep}, {@code undo}, {@code ask}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The verdict of a key.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Verdict ofKey(String key) {
    for (Verdict verdict : values()) {
      if (verdict.key().equals(key)) {
        return verdict;
      }
    }
    throw new IllegalArgumentException("\"" + key + "\" is none of keep, undo, ask");
  }
}
