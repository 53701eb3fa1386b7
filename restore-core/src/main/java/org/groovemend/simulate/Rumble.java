package org.groovemend.simulate;

/**
 * Bearing noise below about 50 Hz and a slow warp once a turn: mostly vertical, so of opposite sign
 * on the two walls.
 */
final class Rumble {

  /** Share of the vertical movement that also appears laterally. */
  private static final double LATERAL_SHARE = 0.25;

  private Rumble() {}

  /**
   * @param from first frame with the stylus down
   * @param to one past the last
   * @param dbfs RMS of the bearing noise on each wall, dB re 1.0
   * @param warpDbfs amplitude of the warp, dB re 1.0
   */
  static void addTo(
      double[][] into,
      int from,
      int to,
      int rate,
      Turntable turntable,
      double dbfs,
      double warpDbfs,
      Chance chance) {
    double[] noise = new double[to - from];
    for (int i = 0; i < noise.length; i++) {
      noise[i] = chance.gaussian();
    }
    Section.highPass(8, 0.7, rate).process(noise);
    Section.lowPass(32, 0.9, rate).process(noise);
    double energy = 0;
    for (double y : noise) {
      energy += y * y;
    }
    double gain = StrictMath.pow(10, dbfs / 20) / Math.sqrt(energy / noise.length);
    double warp = StrictMath.pow(10, warpDbfs / 20);
    for (int i = 0; i < noise.length; i++) {
      double turns = turntable.turns((from + i) / (double) rate);
      double y = gain * noise[i] + warp * StrictMath.sin(2 * Math.PI * turns);
      into[0][from + i] += y * (1 + LATERAL_SHARE);
      into[1][from + i] += y * (LATERAL_SHARE - 1);
    }
  }
}
