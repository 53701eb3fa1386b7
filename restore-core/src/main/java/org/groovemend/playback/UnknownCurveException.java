package org.groovemend.playback;

import java.util.List;

/** A curve was named that is not in the table. */
public final class UnknownCurveException extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final String word;

  UnknownCurveException(String word) {
    super("there is no curve \"" + word + "\"");
    this.word = word;
  }

  public String word() {
    return word;
  }

  /** What could have been said. */
  public List<String> known() {
    return CurveTable.keys();
  }
}
