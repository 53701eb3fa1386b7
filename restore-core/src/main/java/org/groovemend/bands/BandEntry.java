package org.groovemend.bands;

/**
 * What a person knows of one band.
 *
 * @param startSeconds where it begins, from the start of the side; NaN if unknown
 * @param durationSeconds how long it lasts, as a label tells; NaN if unknown
 * @param title "" if unknown
 */
public record BandEntry(double startSeconds, double durationSeconds, String title) {
  public BandEntry {
    title = title == null ? "" : title.strip();
    if (startSeconds < 0 || Double.isInfinite(startSeconds)) {
      throw new BandListException("a band cannot begin at " + startSeconds + " s");
    }
    if (durationSeconds <= 0 || Double.isInfinite(durationSeconds)) {
      throw new BandListException("a band cannot last " + durationSeconds + " s");
    }
  }

  public boolean timed() {
    return !Double.isNaN(startSeconds);
  }

  public boolean lasting() {
    return !Double.isNaN(durationSeconds);
  }
}
