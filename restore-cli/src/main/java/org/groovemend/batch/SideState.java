package org.groovemend.batch;

import java.util.Locale;

/** How far a side has come. */
public enum SideState {
  /** Known, not begun. */
  WAITING,
  /** Begun; what is there of it counts for nothing. */
  RUNNING,
  /** All results are in place. */
  DONE,
  /** Given up in the last run, see its error; tried again in the next. */
  FAILED;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  static SideState ofKey(String key) {
    return valueOf(key.toUpperCase(Locale.ROOT));
  }
}
