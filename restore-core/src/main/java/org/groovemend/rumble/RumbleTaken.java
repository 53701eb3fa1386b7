package org.groovemend.rumble;

import java.util.List;

/**
 * What the stage did to the side, measured on the samples that went in and came out, before they
 * were rounded; goes into the ledger. Levels are dB re full scale, negative infinity for nothing.
 * Those of the bands are root mean squares over the whole side without its constant offset.
 *
 * @param channels one entry each
 * @param bands lateral and vertical, subsonic first; vertical only with two channels
 * @param headroomDb how much lower the highest peak of all channels is; below 0 if it is higher
 * @param removedRmsDbfs root mean square of what was taken away, all channels
 * @param removedPeakDbfs its largest magnitude
 */
public record RumbleTaken(
    List<Channel> channels,
    List<Band> bands,
    double headroomDb,
    double removedRmsDbfs,
    double removedPeakDbfs) {

  public RumbleTaken {
    channels = List.copyOf(channels);
    bands = List.copyOf(bands);
  }

  /**
   * @param offsetBefore mean, full scale 1.0
   * @param offsetAfter the same of what came out
   * @param peakBeforeDbfs largest magnitude
   * @param peakAfterDbfs the same of what came out
   */
  public record Channel(
      double offsetBefore, double offsetAfter, double peakBeforeDbfs, double peakAfterDbfs) {}

  /**
   * @param part "lateral" or "vertical"
   * @param lowHertz lower end, 0 for the subsonic band
   * @param highHertz upper end
   * @param beforeDbfs level of what went in
   * @param afterDbfs of what came out
   */
  public record Band(
      String part, double lowHertz, double highHertz, double beforeDbfs, double afterDbfs) {}
}
