package org.groovemend.hum;

import java.util.Arrays;
import org.groovemend.signal.linear.BandedCholesky;
import org.groovemend.signal.robust.RobustScale;

/**
 * Weighted least squares of all lines of a family in one window. As the lines are multiples of one
 * phase, the normal equations hold only sums of weight times cosine and sine of multiples of it.
 * Samples far outside the remainder's scale, as under a click, get weight in inverse proportion (P.
 * Huber, Ann. Math. Statist. 35(1), 1964). One instance per thread; nothing is allocated after
 * construction.
 */
final class LineFit {
  /** Beyond this many robust standard deviations a sample counts less. */
  private static final double FAR = 6;

  /** Neighbourhood of a line, Hz from it. */
  private static final double[] OFFSETS = {-4.5, -3.5, -2.5, 2.5, 3.5, 4.5};

  /** Mean of the median of six values of an exponential distribution of mean 1. */
  private static final double MEDIAN_OF_SIX = (1.0 / 6 + 1.0 / 5 + 1.0 / 4) + 1.0 / 6;

  private static final int PARTS = 32;

  private final int lines;
  private final double[] cos;
  private final double[] sin;
  private final double[] weight;
  private final double[] rest;
  private final double[] scratch;
  private final double[] sumCos;
  private final double[] sumSin;
  private final double[] unknown;
  private final double[] partWeight = new double[PARTS];
  private final double[] partRe = new double[PARTS];
  private final double[] partIm = new double[PARTS];
  private final double[] near = new double[OFFSETS.length];
  private final BandedCholesky solver = new BandedCholesky();

  /** Results of the last fit, by line: amplitude of A cos + B sin. */
  final double[] a;

  final double[] b;

  /** Expected squared amplitude of the neighbourhood. */
  final double[] floor;

  /** Least squared amplitude in any quarter of the window within its middle half. */
  final double[] least;

  /** The greatest of these. */
  final double[] most;

  /**
   * @param lines 1 to the number of lines
   * @param longest window in samples
   */
  LineFit(int lines, int longest) {
    this.lines = lines;
    this.cos = new double[longest];
    this.sin = new double[longest];
    this.weight = new double[longest];
    this.rest = new double[longest];
    this.scratch = new double[longest];
    this.sumCos = new double[2 * lines + 1];
    this.sumSin = new double[2 * lines + 1];
    this.unknown = new double[2 * lines];
    this.a = new double[lines];
    this.b = new double[lines];
    this.floor = new double[lines];
    this.least = new double[lines];
    this.most = new double[lines];
  }

  /**
   * Fits.
   *
   * @param x samples
   * @param from index of the first
   * @param cycles phase of the fundamental of each sample of the window, in cycles
   * @param shape weights
   * @param count samples, more than twice the lines
   * @param rate samples a second
   */
  void fit(double[] x, int from, double[] cycles, double[] shape, int count, double rate) {
    for (int i = 0; i < count; i++) {
      double angle = 2 * Math.PI * (cycles[i] - Math.rint(cycles[i]));
      cos[i] = StrictMath.cos(angle);
      sin[i] = StrictMath.sin(angle);
    }
    System.arraycopy(shape, 0, weight, 0, count);
    solve(x, from, count);
    remainder(x, from, count);
    if (doubtFarSamples(count)) {
      solve(x, from, count);
      remainder(x, from, count);
    }
    neighbours(count, rate);
  }

  private boolean doubtFarSamples(int count) {
    double far = FAR * RobustScale.aboutZero(rest, 0, count, scratch);
    if (!(far > 0)) {
      return false;
    }
    boolean any = false;
    for (int i = 0; i < count; i++) {
      double size = Math.abs(rest[i]);
      if (size > far) {
        weight[i] *= far / size;
        any = true;
      }
    }
    return any;
  }

  private void solve(double[] x, int from, int count) {
    Arrays.fill(sumCos, 0);
    Arrays.fill(sumSin, 0);
    Arrays.fill(unknown, 0);
    for (int i = 0; i < count; i++) {
      double w = weight[i];
      double v = w * x[from + i];
      double re = 1;
      double im = 0;
      for (int k = 0; k <= 2 * lines; k++) {
        sumCos[k] += w * re;
        sumSin[k] += w * im;
        if (k > 0 && k <= lines) {
          unknown[2 * k - 2] += v * re;
          unknown[2 * k - 1] += v * im;
        }
        double next = re * cos[i] - im * sin[i];
        im = re * sin[i] + im * cos[i];
        re = next;
      }
    }
    solver.reset(2 * lines, 2 * lines - 1);
    for (int k = 1; k <= lines; k++) {
      for (int l = 1; l <= k; l++) {
        double cosPlus = sumCos[k + l] / 2;
        double cosMinus = sumCos[k - l] / 2;
        double sinPlus = sumSin[k + l] / 2;
        double sinMinus = sumSin[k - l] / 2;
        solver.set(2 * k - 2, 2 * l - 2, cosMinus + cosPlus);
        solver.set(2 * k - 1, 2 * l - 1, cosMinus - cosPlus);
        solver.set(2 * k - 1, 2 * l - 2, sinPlus + sinMinus);
        if (l < k) {
          solver.set(2 * k - 2, 2 * l - 1, sinPlus - sinMinus);
        }
      }
    }
    if (!solver.factor()) {
      throw new IllegalStateException("the lines of a window cannot be told apart");
    }
    solver.solve(unknown);
    for (int k = 0; k < lines; k++) {
      a[k] = unknown[2 * k];
      b[k] = unknown[2 * k + 1];
    }
  }

  private void remainder(double[] x, int from, int count) {
    for (int i = 0; i < count; i++) {
      double re = cos[i];
      double im = sin[i];
      double sum = 0;
      for (int k = 0; k < lines; k++) {
        sum += a[k] * re + b[k] * im;
        double next = re * cos[i] - im * sin[i];
        im = re * sin[i] + im * cos[i];
        re = next;
      }
      rest[i] = x[from + i] - sum;
    }
  }

  /** The fit with what is left of the line in a quarter of the window: a short break shows. */
  private double quarter(int k, int first) {
    double re = 0;
    double im = 0;
    double w = 0;
    for (int p = first; p < first + PARTS / 4; p++) {
      re += partRe[p];
      im += partIm[p];
      w += partWeight[p];
    }
    double x = a[k] + 2 * re / w;
    double y = -b[k] + 2 * im / w;
    return x * x + y * y;
  }

  /** The remainder beside each line, brought to rest and summed in parts first. */
  private void neighbours(int count, double rate) {
    double total = 0;
    for (int i = 0; i < count; i++) {
      total += weight[i];
    }
    int part = (count + PARTS - 1) / PARTS;
    Arrays.fill(partWeight, 0);
    for (int i = 0; i < count; i++) {
      partWeight[i / part] += weight[i];
    }
    double[] real = scratch;
    for (int i = 0; i < count; i++) {
      real[i] = weight[i] * rest[i];
      rest[i] = 0;
    }
    // from here on real and rest hold the remainder turned back by the line's phase
    for (int k = 0; k < lines; k++) {
      Arrays.fill(partRe, 0);
      Arrays.fill(partIm, 0);
      for (int i = 0; i < count; i++) {
        double re = real[i] * cos[i] + rest[i] * sin[i];
        rest[i] = rest[i] * cos[i] - real[i] * sin[i];
        real[i] = re;
        partRe[i / part] += re;
        partIm[i / part] += rest[i];
      }
      least[k] = Double.POSITIVE_INFINITY;
      most[k] = 0;
      for (int first = PARTS / 4; first <= PARTS / 2; first++) {
        double square = quarter(k, first);
        least[k] = Math.min(least[k], square);
        most[k] = Math.max(most[k], square);
      }
      for (int o = 0; o < OFFSETS.length; o++) {
        double sumRe = 0;
        double sumIm = 0;
        for (int p = 0; p < PARTS; p++) {
          double angle = -2 * Math.PI * OFFSETS[o] * p * part / rate;
          double c = StrictMath.cos(angle);
          double s = StrictMath.sin(angle);
          sumRe += partRe[p] * c - partIm[p] * s;
          sumIm += partRe[p] * s + partIm[p] * c;
        }
        near[o] = 4 * (sumRe * sumRe + sumIm * sumIm) / (total * total);
      }
      Arrays.sort(near);
      floor[k] = (near[2] + near[3]) / 2 / MEDIAN_OF_SIX;
    }
  }
}
