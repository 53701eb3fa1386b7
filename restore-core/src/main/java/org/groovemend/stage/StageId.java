package org.groovemend.stage;

import java.util.Locale;
import java.util.Optional;

/**
 * The treatments, in the order in which they are applied; {@link #key()} is their name in files and
 * on the command line.
 */
public enum StageId {
  CLICKS,
  CRACKLE,
  THUMPS,
  HUM,
  RUMBLE,
  CURVE,
  MONO,
  NOISE;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Optional<StageId> ofKey(String key) {
    for (StageId id : values()) {
      if (id.key().equals(key)) {
        return Optional.of(id);
      }
    }
    return Optional.empty();
  }
}
