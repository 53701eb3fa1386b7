package org.groovemend.report;

import java.util.List;

/**
 * Level over time with the noise of the groove, stretches of bare groove, and cuts.
 *
 * @param frames of the side
 * @param sampleRateHz of it
 * @param low least level in each of equal columns, dB
 * @param high greatest
 * @param floor level of the groove noise; empty if nobody knows it
 * @param gaps stretches of bare groove, {@code [from, to)} frames
 * @param cuts where it is cut
 */
public record LevelCourse(
    long frames,
    int sampleRateHz,
    float[] low,
    float[] high,
    float[] floor,
    List<long[]> gaps,
    List<Cut> cuts) {

  /**
   * A cut.
   *
   * @param label a few characters, printable ASCII
   * @param certain false for one that is doubted
   */
  public record Cut(long frame, String label, boolean certain) {}

  public LevelCourse {
    low = low.clone();
    high = high.clone();
    floor = floor.clone();
    gaps = List.copyOf(gaps);
    cuts = List.copyOf(cuts);
    if (low.length != high.length || floor.length != 0 && floor.length != low.length) {
      throw new IllegalArgumentException("columns differ in number");
    }
  }
}
