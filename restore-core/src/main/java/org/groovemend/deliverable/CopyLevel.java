package org.groovemend.deliverable;

import org.groovemend.measure.Loudness;

/**
 * How loud a copy is.
 *
 * @param loudness after ITU-R BS.1770 and EBU R 128
 * @param truePeakDbtp largest of any channel, between the samples too; never under the largest
 *     sample; negative infinity for silence
 */
public record CopyLevel(Loudness loudness, double truePeakDbtp) {

  /** The same sound at another level. */
  public CopyLevel withGain(double db) {
    return new CopyLevel(
        new Loudness(
            loudness.integratedLufs() + db,
            loudness.mostMomentaryLufs() + db,
            loudness.mostShortTermLufs() + db,
            loudness.rangeLu()),
        truePeakDbtp + db);
  }
}
