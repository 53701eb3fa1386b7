package org.groovemend.transfer;

import org.groovemend.leadin.LeadInFinding;
import org.groovemend.measure.LevelTrack;

/**
 * Whether a transfer holds all from needle drop to lift.
 *
 * @param needleDropFrame where the stylus comes down: all before it is at least {@value #BELOW_DB}
 *     dB below the bare groove; -1 if that is not in the file
 * @param leadIn whether bare groove was found before the music
 * @param runOut whether bare groove was found behind it
 * @param liftFrame where the stylus is lifted; -1 if that is not in the file
 * @param stylusUpDbfs level with the stylus up, above 100 Hz; NaN if never
 */
public record Completeness(
    long needleDropFrame, boolean leadIn, boolean runOut, long liftFrame, double stylusUpDbfs) {

  /** The chain alone is this far below the groove (common practice, no source). */
  static final double BELOW_DB = 10;

  private static final double BELOW = 0.1;

  /** Reads it from the level over time and the stretches of bare groove. */
  public static Completeness of(LevelTrack track, LeadInFinding found) {
    long drop = -1;
    long lift = -1;
    double up = 0;
    int counted = 0;
    LeadInFinding.RunOut out = found.runOut();
    double groove =
        found.found()
            ? track.median(found.startFrame(), found.endFrame())
            : out != null ? track.median(out.startFrame(), out.endFrame()) : Double.NaN;
    if (groove > 0) {
      int first = 0;
      int end = found.found() ? track.slotOf(found.startFrame()) : Math.min(track.slots(), 1);
      while (first < end && track.meanSquare(first) < BELOW * groove) {
        up += track.meanSquare(first++);
        counted++;
      }
      drop = first > 0 ? track.start(first) : -1;
      double behind = out == null ? groove : track.median(out.startFrame(), out.endFrame());
      int last = track.slots();
      int begin = out == null ? Math.max(first, last - 1) : track.slotOf(out.endFrame() - 1) + 1;
      while (last > begin && track.meanSquare(last - 1) < BELOW * behind) {
        up += track.meanSquare(--last);
        counted++;
      }
      lift = last < track.slots() ? track.start(last) : -1;
    }
    return new Completeness(
        drop,
        found.found(),
        out != null,
        lift,
        counted == 0 ? Double.NaN : 10 * StrictMath.log10(up / counted));
  }
}
