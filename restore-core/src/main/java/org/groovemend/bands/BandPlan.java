package org.groovemend.bands;

import java.util.List;

/**
 * Where a side is to be cut.
 *
 * @param sampleRateHz of the side
 * @param frames of the side
 * @param pieces in order, none missing: their frames add up to the side
 * @param perhaps places of least level where a join may be, that were not cut
 * @param doubts sentences for people
 */
public record BandPlan(
    int sampleRateHz,
    long frames,
    List<BandPiece> pieces,
    List<QuietPlace> perhaps,
    List<String> doubts) {

  /**
   * A place of least level.
   *
   * @param frame where one would cut
   * @param confidence 0 to 1, never high
   * @param depthDb how far it lies below what is around it
   */
  public record QuietPlace(long frame, double confidence, double depthDb) {}

  public BandPlan {
    pieces = List.copyOf(pieces);
    perhaps = List.copyOf(perhaps);
    doubts = List.copyOf(doubts);
    long at = 0;
    for (BandPiece piece : pieces) {
      if (piece.firstFrame() != at) {
        throw new IllegalArgumentException(
            "a piece begins at " + piece.firstFrame() + ", not " + at);
      }
      at = piece.endFrame();
    }
    if (at != frames) {
      throw new IllegalArgumentException("the pieces end at " + at + ", the side at " + frames);
    }
  }

  public double seconds(long frame) {
    return frame / (double) sampleRateHz;
  }

  /** The bands among the pieces. */
  public List<BandPiece> bands() {
    return pieces.stream().filter(p -> p.kind() == BandPiece.Kind.BAND).toList();
  }
}
