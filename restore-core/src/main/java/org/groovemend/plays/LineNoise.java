package org.groovemend.plays;

import java.util.Arrays;
import org.groovemend.signal.delay.CrossSpectrum;

/**
 * Power by line of what two aligned plays differ by, in one frame: soft passages count most, in
 * which it is noise. Not for several threads.
 */
final class LineNoise {
  /** Lines on each side over which it is averaged, as a share of the line's number. */
  private static final int SHARE = 16;

  private final double[] sum;
  private final double[] averaged;
  private double weight;

  LineNoise(int length) {
    sum = new double[length / 2 + 1];
    averaged = new double[length / 2 + 1];
  }

  /** What brings the second signal to the level of the first, as an amplitude. */
  static double level(CrossSpectrum spectra, int firstBin, int lastBin) {
    double a = 0;
    double b = 0;
    for (int k = firstBin; k <= lastBin; k++) {
      a += spectra.first()[k];
      b += spectra.second()[k];
    }
    return b > 0 ? Math.sqrt(a / b) : 1;
  }

  void add(CrossSpectrum spectra, double level, boolean opposed) {
    double g = opposed ? -level : level;
    double all = 0;
    for (double power : spectra.first()) {
      all += power;
    }
    if (!(all > 0)) {
      return;
    }
    for (int k = 0; k < sum.length; k++) {
      sum[k] +=
          (spectra.first()[k] + g * g * spectra.second()[k] - 2 * g * spectra.real()[k])
              / all
              / spectra.frames();
    }
    weight += 1 / all;
  }

  boolean known() {
    return weight > 0;
  }

  /** Power by line, averaged over near lines. */
  double[] byLine() {
    if (averaged[0] == 0) {
      double[] running = new double[sum.length + 1];
      double all = 0;
      for (int k = 0; k < sum.length; k++) {
        running[k + 1] = running[k] + Math.max(0, sum[k]);
        all += Math.max(0, sum[k]);
      }
      Arrays.fill(averaged, 1e-9 * all / weight + 1e-300);
      for (int k = 0; k < sum.length; k++) {
        int reach = 2 + k / SHARE;
        int low = Math.max(0, k - reach);
        int high = Math.min(sum.length, k + reach + 1);
        averaged[k] += (running[high] - running[low]) / (high - low) / weight;
      }
    }
    return averaged;
  }

  /** A part of a cross spectrum with the second signal at the level of the first. */
  static void scale(double[] part, double level, double[] into) {
    for (int k = 0; k < part.length; k++) {
      into[k] = level * part[k];
    }
  }

  void add(LineNoise other) {
    for (int k = 0; k < sum.length; k++) {
      sum[k] += other.sum[k];
    }
    weight += other.weight;
  }
}
