package org.groovemend.stage;

import java.util.Locale;

/** How the transfer was made, as the person states it or its clicks tell. */
public enum CaptureCurve {
  /** Through the playback curve of time constants 3180, 318 and 75 microseconds (IEC 60098). */
  RIAA,
  /** Without playback equalisation. */
  FLAT,
  /** Not stated, and not told by the side either. */
  UNKNOWN;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
