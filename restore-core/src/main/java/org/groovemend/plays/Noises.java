package org.groovemend.plays;

/**
 * What {@link Powers} say of each play: its own noise, which no other play has, and how its
 * response differs from the reference's. With P the power of a play and C what it shares with
 * another, brought to the same response, P - C is the noise of the first, C the sound and all that
 * both have.
 */
final class Noises {
  /** Share of the noise of two plays that the quieter one is held to have at least. */
  private static final double LEAST_SHARE = 0.02;

  /** The response is corrected where the sound stands so far over the noise, as a power. */
  private static final double PLAIN = 10;

  /** A response that differs more, as an amplitude, is no response: the play counts as it is. */
  private static final double MOST_RESPONSE = 2;

  /** Loud frames may differ from soft ones by so much before the rest counts as misfit. */
  private static final double ALLOWED = 1.25;

  private Noises() {}

  /** Gains by play, channel and band that bring each play to the response of play 0. */
  static double[][][] responses(Powers all) {
    double[][][] gain = new double[all.plays()][all.channels()][all.bands()];
    for (int p = 0; p < all.plays(); p++) {
      for (int c = 0; c < all.channels(); c++) {
        for (int b = 0; b < all.bands(); b++) {
          gain[p][c][b] = p == 0 ? 1 : response(all, p, c, b);
        }
      }
    }
    return gain;
  }

  private static double response(Powers all, int p, int c, int b) {
    double noise = Math.max(0, all.soft(c, b, p, p) - all.soft(c, b, 0, p));
    double both = all.soft(c, b, p, p) + all.soft(c, b, 0, 0) - 2 * all.soft(c, b, 0, p);
    double shared = all.loud(c, b, 0, p);
    double sound = all.loud(c, b, p, p) - noise;
    if (!(shared > PLAIN * both) || !(sound > 0)) {
      return 1;
    }
    double g = shared / sound;
    return g > 1 / MOST_RESPONSE && g < MOST_RESPONSE ? g : 1;
  }

  /** Power of play {@code i}'s own noise in soft frames, at the response of the reference. */
  static double own(Powers all, double[][][] gain, int i, int c, int b, boolean soft) {
    double sum = 0;
    double most = 0;
    for (int j = 0; j < all.plays(); j++) {
      if (j != i) {
        double gi = gain[i][c][b];
        double gj = gain[j][c][b];
        double pi = gi * gi * (soft ? all.soft(c, b, i, i) : all.loud(c, b, i, i));
        double pj = gj * gj * (soft ? all.soft(c, b, j, j) : all.loud(c, b, j, j));
        double shared = gi * gj * (soft ? all.soft(c, b, i, j) : all.loud(c, b, i, j));
        sum += pi - shared;
        most += pi + pj - 2 * shared;
      }
    }
    int others = all.plays() - 1;
    return Math.max(sum / others, LEAST_SHARE * Math.max(0, most / others));
  }

  /**
   * Power by which play {@code j} differs from the reference in loud frames beyond noise: other
   * phases, distortion, a map that is not right.
   */
  static double misfit(Powers all, double[][][] gain, int j, int c, int b) {
    double g = gain[j][c][b];
    double loud =
        all.loud(c, b, 0, 0) + g * g * all.loud(c, b, j, j) - 2 * g * all.loud(c, b, 0, j);
    double soft =
        all.soft(c, b, 0, 0) + g * g * all.soft(c, b, j, j) - 2 * g * all.soft(c, b, 0, j);
    return Math.max(0, loud - ALLOWED * soft);
  }

  /** Power of what the reference and play {@code j} share in loud frames, 0 or more. */
  static double sound(Powers all, double[][][] gain, int j, int c, int b) {
    return Math.max(0, gain[j][c][b] * all.loud(c, b, 0, j));
  }
}
