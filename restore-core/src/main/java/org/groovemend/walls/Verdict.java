package org.groovemend.walls;

import java.util.Locale;

/** What the two walls hold. */
public enum Verdict {
  /** One signal, lateral. */
  LATERAL,
  /** One signal, lateral, but one lead of the pickup is reversed. */
  LATERAL_REVERSED,
  /** One signal, vertical. */
  VERTICAL,
  /** One signal of opposite sense; vertical cut or reversed lead, which of them is not told. */
  OPPOSED,
  /** Two signals. */
  STEREO,
  /** One signal or two: in between. */
  UNDECIDED,
  /** Only one wall sounds. */
  ONE_WALL,
  /** No sample differs from zero. */
  SILENT,
  /** The file has one channel. */
  ONE_CHANNEL;

  /** Whether both walls carry one signal. */
  public boolean mono() {
    return this == LATERAL || this == LATERAL_REVERSED || this == VERTICAL || this == OPPOSED;
  }

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
