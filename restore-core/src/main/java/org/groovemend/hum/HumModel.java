package org.groovemend.hum;

import java.util.List;

/**
 * One family as it is taken out.
 *
 * @param track phase of the fundamental; knots every {@code hop} frames
 * @param lines what is subtracted, at the same knots
 */
record HumModel(PhaseTrack track, List<Line> lines) {

  /**
   * @param channel 0 based
   * @param harmonic 1 for the fundamental
   * @param re real part of the complex amplitude at each knot, full scale 1.0
   * @param im imaginary part
   */
  record Line(int channel, int harmonic, double[] re, double[] im) {}

  int highest() {
    return lines.stream().mapToInt(Line::harmonic).max().orElse(0);
  }
}
