package org.groovemend.walls;

import org.groovemend.signal.delay.CrossSpectrum;

/**
 * What the walls have in common but turned: the imaginary part of the whole side's cross spectrum,
 * delay taken out, line by line. Sound in a room comes to two microphones by ways of different
 * lengths and turns from line to line even if its place stays; a mono groove does not turn, and
 * noise, distortion and unlike levels leave this part alone.
 */
final class WallPhase {
  private final double[] left;
  private final double[] right;
  private final double[] shared;
  private final double[] athwart;
  private long frames;

  WallPhase(int bins) {
    left = new double[bins];
    right = new double[bins];
    shared = new double[bins];
    athwart = new double[bins];
  }

  void add(CrossSpectrum spectrum, double[] along, double[] across) {
    for (int k = 0; k < left.length; k++) {
      left[k] += spectrum.first()[k];
      right[k] += spectrum.second()[k];
      shared[k] += along[k];
      athwart[k] += across[k];
    }
    frames += spectrum.frames();
  }

  /**
   * Power of the vertical part that is the lateral part turned, re the lateral part, both balanced;
   * 0 if what chance leaves is larger.
   *
   * @param from first line
   * @param to one past the last
   * @param balance level of the right wall re the left by line, as an amplitude ratio
   */
  double turned(int from, int to, double[] balance) {
    double turned = 0;
    double lateral = 0;
    for (int k = from; k < to; k++) {
      double right2 = right[k] / (balance[k] * balance[k]);
      double along = shared[k] / balance[k];
      double across = athwart[k] / balance[k];
      double middle = (left[k] + right2 + 2 * along) / 4;
      if (!(middle > 0)) {
        continue;
      }
      // the imaginary part of unrelated noise has this variance by chance
      double chance =
          Math.max(0, left[k] * right2 - along * along - across * across) / (2.0 * frames);
      // the real part holds as much again
      turned += 2 * (across * across - chance) / 4 / middle;
      lateral += middle;
    }
    return lateral > 0 ? Math.max(0, turned / lateral) : 0;
  }
}
