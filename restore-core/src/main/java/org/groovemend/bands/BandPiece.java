package org.groovemend.bands;

/**
 * A piece of a side; the pieces follow one another and are the whole side.
 *
 * @param kind a band, or what lies before the first and behind the last
 * @param number of the band from 1; 0 for the run-in, one more than the last band for the run-out
 * @param firstFrame of the side
 * @param endFrame exclusive
 * @param title "" if unknown
 * @param confidence 0 to 1, in the cut that it begins with; 1 at the start of the side
 * @param reason why it begins there, in words for people
 */
public record BandPiece(
    Kind kind,
    int number,
    long firstFrame,
    long endFrame,
    String title,
    double confidence,
    String reason) {

  /** What a piece is. */
  public enum Kind {
    RUN_IN("run-in"),
    BAND("band"),
    RUN_OUT("run-out");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }
  }

  public BandPiece {
    if (firstFrame < 0 || endFrame <= firstFrame) {
      throw new IllegalArgumentException("frames " + firstFrame + " to " + endFrame + " are none");
    }
  }

  public long frames() {
    return endFrame - firstFrame;
  }
}
