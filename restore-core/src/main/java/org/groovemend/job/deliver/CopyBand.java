package org.groovemend.job.deliver;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.bands.BandPiece;
import org.groovemend.bands.BandPlan;

/**
 * A band that copies are cut to.
 *
 * @param number from 1
 * @param of how many there are
 * @param title "" if unknown
 * @param firstFrame of the side before its time is changed
 * @param endFrame behind its last
 * @param confidence 0 to 1, in the cut that it begins with
 * @param reason why it begins there
 */
record CopyBand(
    int number,
    int of,
    String title,
    long firstFrame,
    long endFrame,
    double confidence,
    String reason) {

  /** The bands of a plan; run-in and run-out are none. */
  static List<CopyBand> of(BandPlan plan) {
    List<CopyBand> bands = new ArrayList<>();
    for (BandPiece piece : plan.bands()) {
      bands.add(
          new CopyBand(
              piece.number(),
              plan.bands().size(),
              piece.title(),
              piece.firstFrame(),
              piece.endFrame(),
              piece.confidence(),
              piece.reason()));
    }
    return bands;
  }

  /** SIDE.service.flac becomes SIDE.service.01.flac. */
  String fileName(String whole) {
    int dot = whole.lastIndexOf('.');
    return whole.substring(0, dot)
        + "."
        + String.format(java.util.Locale.ROOT, "%02d", number)
        + whole.substring(dot);
  }
}
