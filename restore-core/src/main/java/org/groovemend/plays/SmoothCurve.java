package org.groovemend.plays;

import java.util.Arrays;
import org.groovemend.signal.linear.BandedCholesky;

/**
 * A smooth function of time through points with doubts: cubic B-splines on even knots, the third
 * differences of their coefficients penalised (Eilers and Marx 1996). Immutable.
 */
final class SmoothCurve {
  /** Distance of the knots: a sway of 10 Hz is followed to a hundredth of itself. */
  static final double KNOT_SECONDS = 0.025;

  private static final double[] THIRD = {-1, 3, -3, 1};
  private static final int DEGREE = 3;
  private static final int WIDTH = DEGREE + 1;

  /** Keeps the system definite where there are no points; far below any information. */
  private static final double RIDGE = 1e-9;

  private final double from;
  private final double[] coefficients;

  /** Inverse of the normal equations inside the band, or null. */
  private final double[] covariance;

  private SmoothCurve(double from, double[] coefficients, double[] covariance) {
    this.from = from;
    this.coefficients = coefficients;
    this.covariance = covariance;
  }

  /** Zero everywhere. */
  static SmoothCurve zero() {
    return new SmoothCurve(0, new double[WIDTH], null);
  }

  /**
   * Fits.
   *
   * @param from first moment, seconds
   * @param to last one
   * @param at moments of the points, growing
   * @param y their values
   * @param weight inverse variances; 0 leaves a point out
   * @param followHertz swings slower than this are followed, faster ones smoothed away
   */
  static SmoothCurve fit(
      double from, double to, double[] at, double[] y, double[] weight, double followHertz) {
    int size = (int) Math.ceil((to - from) / KNOT_SECONDS) + WIDTH;
    double[] band = new double[size * WIDTH];
    double[] rhs = new double[size];
    double[] b = new double[WIDTH];
    double information = 0;
    for (int k = 0; k < at.length; k++) {
      if (!(weight[k] > 0)) {
        continue;
      }
      int first = basis(at[k] - from, size, b);
      information += weight[k];
      for (int i = 0; i < WIDTH; i++) {
        rhs[first + i] += weight[k] * b[i] * y[k];
        for (int j = i; j < WIDTH; j++) {
          band[(first + i) * WIDTH + j - i] += weight[k] * b[i] * b[j];
        }
      }
    }
    double perKnot = Math.max(1e-300, information / size);
    double swing = 2 * StrictMath.sin(Math.PI * followHertz * KNOT_SECONDS);
    double penalty = perKnot / StrictMath.pow(swing, 6);
    for (int r = 0; r + DEGREE < size; r++) {
      for (int i = 0; i < WIDTH; i++) {
        for (int j = i; j < WIDTH; j++) {
          band[(r + i) * WIDTH + j - i] += penalty * THIRD[i] * THIRD[j];
        }
      }
    }
    BandedCholesky solver = new BandedCholesky();
    solver.reset(size, DEGREE);
    for (int i = 0; i < size; i++) {
      band[i * WIDTH] += RIDGE * perKnot;
      for (int j = 0; j < WIDTH && i + j < size; j++) {
        solver.set(i + j, i, band[i * WIDTH + j]);
      }
    }
    if (!solver.factor()) {
      return new SmoothCurve(from, new double[size], null);
    }
    solver.solve(rhs);
    // once more over what is left (J. Tukey's twicing): a swing is flattened by the square only
    SmoothCurve once = new SmoothCurve(from, rhs, null);
    double[] rest = new double[size];
    for (int k = 0; k < at.length; k++) {
      if (weight[k] > 0) {
        int first = basis(at[k] - from, size, b);
        double left = weight[k] * (y[k] - once.value(at[k]));
        for (int i = 0; i < WIDTH; i++) {
          rest[first + i] += b[i] * left;
        }
      }
    }
    solver.solve(rest);
    for (int i = 0; i < size; i++) {
      rest[i] += rhs[i];
    }
    return new SmoothCurve(from, rest, solver.inverseBand());
  }

  /** Values of the four splines at a moment after the start; gives the first one's number. */
  private static int basis(double since, int size, double[] b) {
    double x = Math.max(0, Math.min(size - WIDTH, since / KNOT_SECONDS));
    int first = (int) Math.min(size - WIDTH, Math.floor(x));
    double u = x - first;
    double r = 1 - u;
    b[0] = r * r * r / 6;
    b[1] = (3 * u * u * u - 6 * u * u + 4) / 6;
    b[2] = (3 * r * r * r - 6 * r * r + 4) / 6;
    b[3] = u * u * u / 6;
    return first;
  }

  /** Value at a moment; outside the ends that of the nearer end. */
  double value(double seconds) {
    double x = Math.max(0, Math.min(coefficients.length - WIDTH, (seconds - from) / KNOT_SECONDS));
    int first = (int) Math.min(coefficients.length - WIDTH, x);
    double u = x - first;
    double r = 1 - u;
    return (coefficients[first] * r * r * r
            + coefficients[first + 1] * (3 * u * u * u - 6 * u * u + 4)
            + coefficients[first + 2] * (3 * r * r * r - 6 * r * r + 4)
            + coefficients[first + 3] * u * u * u)
        / 6;
  }

  /** Standard deviation of the value at a moment, if the weights told the truth. */
  double doubt(double seconds) {
    if (covariance == null) {
      return Double.POSITIVE_INFINITY;
    }
    double[] b = new double[WIDTH];
    int first = basis(seconds - from, coefficients.length, b);
    double sum = 0;
    for (int i = 0; i < WIDTH; i++) {
      for (int j = 0; j < WIDTH; j++) {
        int col = first + Math.min(i, j);
        sum += b[i] * b[j] * covariance[col * WIDTH + Math.abs(i - j)];
      }
    }
    return Math.sqrt(Math.max(0, sum));
  }

  /** Largest slope upward or downward: no slope between is larger. */
  double steepest() {
    double most = 0;
    for (int i = 1; i < coefficients.length; i++) {
      most = Math.max(most, Math.abs(coefficients[i] - coefficients[i - 1]) / KNOT_SECONDS);
    }
    return most;
  }

  /** Its coefficients, for a record: value at a moment follows from four of them. */
  double[] coefficients() {
    return Arrays.copyOf(coefficients, coefficients.length);
  }

  double from() {
    return from;
  }
}
