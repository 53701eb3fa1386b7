package org.groovemend.deliverable;

import java.util.Optional;

/** What a copy is meant to be. */
public enum CopyKind {
  /** The transfer, byte for byte. */
  PRESERVATION("preservation", "Preservation copy: the transfer, byte for byte"),
  /** What is known of the playback alone: curve and speed; no repair, no noise reduction. */
  OBJECTIVE("objective", "Objective copy: known curve and speed only; nothing repaired"),
  /** Restored. */
  SERVICE("service", "Service copy: restored");

  private final String key;
  private final String words;

  CopyKind(String key, String words) {
    this.key = key;
    this.words = words;
  }

  /** Name in recipes. */
  public String key() {
    return key;
  }

  /** For people. */
  public String words() {
    return words;
  }

  /** The kind of a name, if there is one. */
  public static Optional<CopyKind> ofKey(String key) {
    for (CopyKind kind : values()) {
      if (kind.key.equals(key)) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }
}
