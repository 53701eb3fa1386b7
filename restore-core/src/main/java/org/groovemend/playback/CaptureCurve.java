package org.groovemend.playback;

/**
 * How the transfer was made, as the person states it or its clicks tell.
 *
 * @param chosen the curve it went through, flat for none; null if that is not known
 * @param scaledBy by what the curve's constants are longer in the time of the file, 1 if the file
 *     runs as it was captured
 */
public record CaptureCurve(ChosenCurve chosen, double scaledBy) {

  /** Through the playback curve of time constants 3180, 318 and 75 microseconds (IEC 60098). */
  public static final CaptureCurve RIAA = new CaptureCurve(ChosenCurve.of("riaa"), 1);

  /** Without playback equalisation. */
  public static final CaptureCurve FLAT = new CaptureCurve(ChosenCurve.of(ChosenCurve.FLAT), 1);

  /** Not stated, and not told by the side either. */
  public static final CaptureCurve UNKNOWN = new CaptureCurve(null, 1);

  private static final String NOT_KNOWN = "unknown";

  public CaptureCurve {
    if (!(scaledBy > 0) || Double.isInfinite(scaledBy)) {
      throw new IllegalArgumentException("a curve cannot be scaled by " + scaledBy);
    }
  }

  /**
   * Reads it.
   *
   * @param text "unknown", or what {@link ChosenCurve#of} reads
   * @throws UnknownCurveException if it is no name of the table, nor numbers
   * @throws IllegalArgumentException if the numbers make no curve
   */
  public static CaptureCurve of(String text) {
    return text.strip().equalsIgnoreCase(NOT_KNOWN)
        ? UNKNOWN
        : new CaptureCurve(ChosenCurve.of(text), 1);
  }

  /** As it is written in treatments and ledgers. */
  public String key() {
    return chosen == null ? NOT_KNOWN : chosen.text();
  }

  public boolean isKnown() {
    return chosen != null;
  }

  /** Known to have gone through no curve. */
  public boolean isFlat() {
    return chosen != null && chosen.curve().isFlat();
  }

  /** Known to have gone through a curve. */
  public boolean isCurved() {
    return chosen != null && !chosen.curve().isFlat();
  }

  /** The curve in the time of the file; flat if none is known. */
  public PlaybackCurve curve() {
    return isCurved() ? chosen.curve().scaled(scaledBy) : PlaybackCurve.FLAT;
  }

  /** The same curve in a file that runs at another speed. */
  public CaptureCurve scaledBy(double factor) {
    return new CaptureCurve(chosen, factor);
  }
}
