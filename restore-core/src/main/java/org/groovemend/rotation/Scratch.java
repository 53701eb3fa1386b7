package org.groovemend.rotation;

import java.util.List;

/**
 * A row of ticks, one a turn, at a nearly constant distance.
 *
 * @param firstFrame of its first tick
 * @param lastFrame of its last tick
 * @param turns of the disc from first to last
 * @param angleDegrees where the first lies: degrees of the turn since frame 0 of the file, 0 to 360
 * @param driftDegreesPerTurn how much later each turn meets it; negative: earlier
 * @param frames of the ticks found, in order; a turn may be missing here and there
 */
public record Scratch(
    long firstFrame,
    long lastFrame,
    int turns,
    double angleDegrees,
    double driftDegreesPerTurn,
    List<Long> frames) {
  public Scratch {
    frames = List.copyOf(frames);
  }
}
