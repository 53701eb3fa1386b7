package org.groovemend.walls;

import java.util.Arrays;

/**
 * The weights of one segment: for each passage and octave how much of the balanced difference is
 * added to half the sum.
 *
 * <p>Half the sum is M = m + noise, the balanced difference D noise alone. The part -b D that makes
 * M + b D least noisy is the regression of M on D; the music m, of unknown and changing power, is
 * the scatter of that regression, so every line of every frame counts by the inverse of its power
 * there (weighted least squares, A. Aitken, 1935). For independent noise of variances s1, s2 this
 * is the weighting by inverse variance; noise common to both walls drops out. A weight is sure to
 * lie between all of one wall and all of the other: that it may lie anywhere there is put in as a
 * normal prior of the same variance, 1/12, so that passages that tell nothing have equal weights.
 * Octaves are not unlike their neighbours: the prior is a chain in which each is correlated with
 * the next by {@value #ALIKE} (our choice), so that one in which the music hides the noise follows
 * those that tell.
 */
final class PassageWeights {
  /** Weights are kept to so many steps. */
  private static final double STEPS = 1000;

  /**
   * Prior precision of the weight, 12, over the independent real values of a line of a frame: two,
   * less for lines (noise bandwidth 1.23) and half-overlapped frames (correlation 0.318) of this
   * window that are alike.
   */
  private static final double PRIOR = 12 / (2 / 1.2337 / (1 + 2 * 0.318 * 0.318));

  /** Correlation of the weights of neighbouring octaves. */
  private static final double ALIKE = 0.95;

  /** Lines averaged on each side for the power of the music. */
  private static final int REACH = 2;

  private final OctaveBands octaves;
  private final double[] leftGain;
  private final double[] rightGain;
  private final double[] middle;
  private final double[] difference;
  private final double[] pivot;

  PassageWeights(OctaveBands octaves, double[] leftGain, double[] rightGain) {
    this.octaves = octaves;
    this.leftGain = leftGain;
    this.rightGain = rightGain;
    middle = new double[octaves.bins()];
    difference = new double[octaves.bins()];
    pivot = new double[octaves.count()];
  }

  /**
   * Products and squares of one frame by octave, each line by the inverse of its power.
   *
   * @param left spectrum of the left wall, aligned, as {@code RealFft} packs it
   * @param right of the right wall
   * @param apart takes the balanced difference
   * @param into product and square for each octave, by turns
   */
  void measure(double[] left, double[] right, double[] apart, double[] into) {
    int n = octaves.bins() - 1;
    apart[0] = 0;
    apart[1] = 0;
    for (int k = 1; k < n; k++) {
      double re = left[2 * k] / leftGain[k] - right[2 * k] / rightGain[k];
      double im = left[2 * k + 1] / leftGain[k] - right[2 * k + 1] / rightGain[k];
      apart[2 * k] = re;
      apart[2 * k + 1] = im;
      difference[k] = re * re + im * im;
      double x = (left[2 * k] + right[2 * k]) / 2;
      double y = (left[2 * k + 1] + right[2 * k + 1]) / 2;
      middle[k] = x * x + y * y;
    }
    Arrays.fill(into, 0);
    for (int b = 0; b < octaves.count(); b++) {
      int from = octaves.firstBin(b);
      int to = octaves.firstBin(b + 1);
      double mean = 0;
      for (int k = from; k < to; k++) {
        mean += difference[k];
      }
      mean /= Math.max(1, to - from);
      for (int k = from; k < to; k++) {
        double power = 0;
        for (int j = Math.max(1, k - REACH); j <= Math.min(n - 1, k + REACH); j++) {
          power += middle[j];
        }
        // with the noise itself in it, a line does not count most where it happens to be low
        power = power / (2 * REACH + 1) + mean;
        if (power > 0) {
          double x = (left[2 * k] + right[2 * k]) / 2;
          double y = (left[2 * k + 1] + right[2 * k + 1]) / 2;
          into[2 * b] += (x * apart[2 * k] + y * apart[2 * k + 1]) / power;
          into[2 * b + 1] += difference[k] / power;
        }
      }
    }
  }

  /**
   * The parts to add, from sums over a passage: in thousandths, neither wall less than nothing.
   *
   * @param sums product and square for each octave, by turns
   * @param parts out: one for each octave
   */
  void parts(double[] sums, double[] parts) {
    int n = octaves.count();
    double corner = PRIOR / (1 - ALIKE * ALIKE);
    double beside = -ALIKE * corner;
    // elimination of the tridiagonal system from below, then back
    for (int b = 0; b < n; b++) {
      boolean end = b == 0 || b == n - 1;
      double diagonal =
          (n == 1 ? PRIOR : end ? corner : corner * (1 + ALIKE * ALIKE)) + sums[2 * b + 1];
      double right = -sums[2 * b];
      if (b > 0) {
        double factor = beside / pivot[b - 1];
        diagonal -= factor * beside;
        right -= factor * parts[b - 1];
      }
      pivot[b] = diagonal;
      parts[b] = right;
    }
    for (int b = n - 1; b >= 0; b--) {
      double above = b + 1 < n ? beside * parts[b + 1] : 0;
      parts[b] = (parts[b] - above) / pivot[b];
    }
    for (int b = 0; b < n; b++) {
      int centre =
          (int) Math.min(octaves.bins() - 1, OctaveBands.centreHertz(b) / octaves.binHertz());
      parts[b] =
          thousandths(Math.max(-leftGain[centre] / 2, Math.min(rightGain[centre] / 2, parts[b])));
    }
  }

  static double thousandths(double weight) {
    // without a negative zero
    return Math.rint(weight * STEPS) / STEPS + 0.0;
  }
}
