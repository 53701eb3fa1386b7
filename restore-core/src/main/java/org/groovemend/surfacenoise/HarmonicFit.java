package org.groovemend.surfacenoise;

import java.util.function.IntToDoubleFunction;

/**
 * Least squares of a straight line and sines once and twice a turn, if wanted with less weight for
 * what lies above the fit than for what lies below it (asymmetric least squares: W. K. Newey and J.
 * L. Powell, Econometrica 55(4), 1987): music only ever adds to the level of the groove.
 *
 * @param harmonics cosine, sine once a turn; cosine, sine twice a turn
 * @param total squares about the straight line alone
 * @param restOfOnce squares that remain about the line and the sine once a turn
 * @param rest squares that remain
 */
record HarmonicFit(double[] harmonics, double total, double restOfOnce, double rest) {
  private static final int TERMS = 6;
  private static final int LINE = 2;
  private static final int ONCE = 4;
  private static final int ROUNDS = 4;
  private static final double ABOVE = 0.1;
  private static final int LEAST_VALUES = 4 * TERMS;

  /**
   * Fits values {@code from} to {@code to}, exclusive, those below {@code limit}, with equal
   * weights.
   *
   * @param turns angle of a value, in turns
   * @return null if too few are below it
   */
  static HarmonicFit of(
      double[] values, int from, int to, double limit, IntToDoubleFunction turns) {
    return fit(values, from, to, limit, turns, null, new double[TERMS]);
  }

  /** The same with a tenth of the weight for what lies above. */
  static HarmonicFit ofTheLower(
      double[] values, int from, int to, double limit, IntToDoubleFunction turns) {
    double[] x = null;
    HarmonicFit fit = null;
    for (int round = 0; round < ROUNDS; round++) {
      double[] next = new double[TERMS];
      fit = fit(values, from, to, limit, turns, x, next);
      if (fit == null) {
        return null;
      }
      x = next;
    }
    return fit;
  }

  private static HarmonicFit fit(
      double[] values,
      int from,
      int to,
      double limit,
      IntToDoubleFunction turns,
      double[] before,
      double[] x) {
    // the normal equations, with the values as the last column and their squares at its end
    double[][] m = new double[TERMS + 1][TERMS + 1];
    double[] row = new double[TERMS + 1];
    double count = 0;
    for (int i = from; i < to; i++) {
      if (values[i] >= limit) {
        continue;
      }
      row(turns.applyAsDouble(i), (2.0 * i - from - to) / (to - from), row);
      row[TERMS] = values[i];
      double weight = 1;
      if (before != null) {
        double fitted = 0;
        for (int a = 0; a < TERMS; a++) {
          fitted += before[a] * row[a];
        }
        weight = values[i] > fitted ? ABOVE : 1;
      }
      for (int a = 0; a <= TERMS; a++) {
        for (int b = a; b <= TERMS; b++) {
          m[a][b] += weight * row[a] * row[b];
        }
      }
      count += weight;
    }
    if (count < LEAST_VALUES) {
      return null;
    }
    double[] rest = new double[TERMS + 1];
    // elimination in the order of the terms leaves the squares about each smaller model on the way
    for (int a = 0; a < TERMS; a++) {
      if (!(m[a][a] > 1e-9 * count)) {
        return null;
      }
      rest[a] = m[TERMS][TERMS];
      for (int b = a + 1; b <= TERMS; b++) {
        double factor = m[a][b] / m[a][a];
        for (int c = b; c <= TERMS; c++) {
          m[b][c] -= factor * m[a][c];
        }
      }
    }
    for (int a = TERMS - 1; a >= 0; a--) {
      double sum = m[a][TERMS];
      for (int b = a + 1; b < TERMS; b++) {
        sum -= m[a][b] * x[b];
      }
      x[a] = sum / m[a][a];
    }
    return new HarmonicFit(
        new double[] {x[2], x[3], x[4], x[5]},
        rest[LINE],
        rest[ONCE],
        Math.max(0, m[TERMS][TERMS]));
  }

  private static void row(double turns, double line, double[] row) {
    double angle = 2 * Math.PI * (turns - Math.floor(turns));
    double c = StrictMath.cos(angle);
    double s = StrictMath.sin(angle);
    row[0] = 1;
    row[1] = line;
    row[2] = c;
    row[3] = s;
    row[4] = c * c - s * s;
    row[5] = 2 * s * c;
  }
}
