package org.groovemend.thump;

import java.util.Arrays;

/**
 * Fits a {@link ThumpShape} by generalised least squares: the music's own AR models whiten, cosine
 * and sine parts per axis are linear, the five values of the shape are found from a grid by
 * Gauss-Newton steps with damping. One instance per thread.
 */
final class ThumpFit {
  private static final int ORDER = ThumpGeometry.ORDER;
  private static final int VALUES = ThumpShape.VALUES;

  /** Instants judged before the reference. */
  static final int EARLY = 20;

  /** How far the onset may be from the reference, in instants. */
  private static final double FURTHEST = 16;

  /** Time constant of the soft beginning while the onset is sought, in seconds. */
  private static final double RISE = 0.0007;

  private final MusicModel model;
  private final int axes;
  private final int rows;
  private final double spacing;
  private final double[][] data;
  private final double[][][] basis;
  private final double[][][] jacobian;
  private final double[][][] trial;
  private final double[][] free;
  private final double[][][] pulses;
  private int pulseCount;
  private final double[] cos;
  private final double[] sin;
  private final double[] axis;
  private final double[][] gram;
  private final double[][] coefficients;
  private final double[] explained;
  private final ThumpGrid grid;
  private ThumpShape shape;
  private double drop;
  private double energy;
  private int valid;

  ThumpFit(ThumpGeometry g, MusicModel model, int axes) {
    this.model = model;
    this.axes = axes;
    this.rows = EARLY + g.judged();
    this.spacing = 1 / g.perSecond();
    int n = ORDER + rows;
    data = new double[axes][n];
    basis = new double[axes][2][n];
    trial = new double[axes][2][n];
    jacobian = new double[axes][VALUES][n];
    pulses = new double[axes][16][n];
    free = new double[axes][n];
    cos = new double[n];
    sin = new double[n];
    axis = new double[n];
    gram = new double[axes][3];
    coefficients = new double[axes][2];
    explained = new double[axes];
    grid = new ThumpGrid((EARLY + ORDER) * spacing, spacing, RISE, n);
  }

  ThumpShape shape() {
    return shape;
  }

  /** Drop in whitened energy. */
  double drop() {
    return drop;
  }

  /** Drop along one axis. */
  double drop(int k) {
    return explained[k];
  }

  /** Whitened energy before. */
  double energy() {
    return energy;
  }

  /** Values that were compared. */
  int count() {
    int active = 0;
    for (int k = 0; k < axes; k++) {
      active += model.active(k) ? 1 : 0;
    }
    return active * (rows - pulseCount);
  }

  /** Cosine and sine amplitude along an axis. */
  double[] coefficients(int k) {
    return coefficients[k];
  }

  double[][] pulses(int k) {
    return pulses[k];
  }

  int pulseCount() {
    return pulseCount;
  }

  /**
   * Takes the low band in.
   *
   * @param x one array per channel, with at least {@code EARLY + 2 ORDER} samples before the
   *     reference
   * @param reference index of the reference
   * @param to end of the valid samples; beyond, the ring is not judged
   */
  void load(double[][] x, int reference, int to) {
    int lo = reference - EARLY - ORDER;
    int n = Math.min(ORDER + rows, to - lo);
    double[][] part = new double[x.length][n];
    for (int c = 0; c < x.length; c++) {
      System.arraycopy(x[c], lo, part[c], 0, n);
    }
    for (int k = 0; k < axes; k++) {
      Arrays.fill(data[k], 0);
      if (model.active(k)) {
        model.project(part, k, 0, n, axis);
        model.whiten(k, axis, 0, n, data[k]);
      }
      System.arraycopy(data[k], 0, free[k], 0, data[k].length);
    }
    valid = n;
    pulseCount = 0;
    measure();
  }

  private void measure() {
    energy = 0;
    for (int k = 0; k < axes; k++) {
      energy += dot(free[k], free[k]);
    }
  }

  /** Declares the instants from {@code from} to {@code to} after the reference to be unknown. */
  void forget(int from, int to) {
    pulseCount = 0;
    for (int m = from; m < to && pulseCount < pulses[0].length; m++) {
      for (int k = 0; k < axes; k++) {
        double[] u = pulses[k][pulseCount];
        Arrays.fill(u, 0);
        if (!model.active(k)) {
          continue;
        }
        int at = ORDER + EARLY + m;
        for (int i = 0; i <= ORDER && at + i < valid; i++) {
          u[at + i] = model.coefficients(k)[i];
        }
        for (int q = 0; q < pulseCount; q++) {
          remove(u, pulses[k][q]);
        }
        double norm = Math.sqrt(dot(u, u));
        for (int i = 0; i < u.length; i++) {
          u[i] = norm > 0 ? u[i] / norm : 0;
        }
      }
      pulseCount++;
    }
    for (int k = 0; k < axes; k++) {
      System.arraycopy(data[k], 0, free[k], 0, data[k].length);
      clean(k, free[k]);
    }
    measure();
  }

  private void clean(int k, double[] v) {
    for (int q = 0; q < pulseCount; q++) {
      remove(v, pulses[k][q]);
    }
  }

  private static void remove(double[] v, double[] unit) {
    double p = dot(v, unit);
    for (int i = 0; i < v.length; i++) {
      v[i] -= p * unit[i];
    }
  }

  private static double dot(double[] x, double[] y) {
    double s0 = 0;
    double s1 = 0;
    int i = 0;
    for (; i + 1 < x.length; i += 2) {
      s0 += x[i] * y[i];
      s1 += x[i + 1] * y[i + 1];
    }
    return i < x.length ? s0 + s1 + x[i] * y[i] : s0 + s1;
  }

  /** Best shape of the grid. */
  void search() {
    double best = -1;
    for (int i = 0; i < grid.size(); i++) {
      white(grid.cos(i), grid.sin(i), basis);
      double d = amplitudes(basis);
      if (d > best) {
        best = d;
        shape = grid.shape(i);
      }
    }
    drop = solve(shape, basis, RISE);
  }

  /**
   * Improves the shape.
   *
   * @param onsetToo true if the onset is sought as well; else it is kept and the ring begins at
   *     full size
   */
  void refine(int steps, boolean onsetToo) {
    double rise = onsetToo ? RISE : 0;
    int values = onsetToo ? VALUES : VALUES - 1;
    drop = solve(shape, basis, rise);
    double damping = 0.01;
    double[] move = new double[VALUES];
    double[][] normal = new double[VALUES][VALUES];
    double[] gradient = new double[VALUES];
    for (int step = 0; step < steps; step++) {
      differentiate(values, rise);
      equations(values, normal, gradient);
      boolean better = false;
      for (int tries = 0; tries < 5 && !better; tries++) {
        LinearStep.solve(normal, gradient, values, damping, move);
        ThumpShape next = shape.moved(move, FURTHEST);
        double d = solve(next, trial, rise);
        if (d > drop) {
          better = true;
          double gain = d - drop;
          shape = next;
          drop = solve(shape, basis, rise);
          damping = Math.max(1e-6, damping / 5);
          if (gain < 1e-4 * drop && gain < 0.05) {
            return;
          }
        } else {
          damping *= 8;
        }
      }
      if (!better) {
        drop = solve(shape, basis, rise);
        return;
      }
    }
  }

  /**
   * Looks for a better onset farther off than a step can see: a ring may begin with a small lobe
   * before the first large one.
   */
  void shift() {
    drop = solve(shape, basis, RISE);
    ThumpShape best = shape;
    for (int half = -6; half <= 16; half++) {
      ThumpShape s = shape.earlier(0.5 * half, spacing);
      if (Math.abs(s.onset()) <= FURTHEST) {
        double d = solve(s, trial, RISE);
        if (d > drop) {
          drop = d;
          best = s;
        }
      }
    }
    shape = best;
    drop = solve(shape, basis, RISE);
  }

  private void differentiate(int values, double rise) {
    double[][] kept = new double[axes][];
    for (int k = 0; k < axes; k++) {
      kept[k] = coefficients[k].clone();
    }
    for (int v = 0; v < values; v++) {
      double[] by = new double[VALUES];
      by[v] = v == 4 ? 0.02 : 1e-3;
      ThumpShape forward = shape.moved(by, FURTHEST + 1);
      double delta = by[v];
      if (forward.equals(shape)) {
        by[v] = -by[v];
        forward = shape.moved(by, FURTHEST + 1);
        delta = by[v];
      }
      white(forward, trial, rise);
      for (int k = 0; k < axes; k++) {
        double[] j = jacobian[k][v];
        for (int i = 0; i < j.length; i++) {
          j[i] =
              (kept[k][0] * (trial[k][0][i] - basis[k][0][i])
                      + kept[k][1] * (trial[k][1][i] - basis[k][1][i]))
                  / delta;
        }
        project(k, j);
      }
    }
  }

  /** Takes out of {@code v} what the cosine and sine parts can explain. */
  private void project(int k, double[] v) {
    double[] h = gram[k];
    double p = dot(v, basis[k][0]);
    double q = dot(v, basis[k][1]);
    double determinant = h[0] * h[2] - h[1] * h[1];
    if (!(determinant > 1e-12 * h[0] * h[2])) {
      return;
    }
    double a = (h[2] * p - h[1] * q) / determinant;
    double b = (h[0] * q - h[1] * p) / determinant;
    for (int i = 0; i < v.length; i++) {
      v[i] -= a * basis[k][0][i] + b * basis[k][1][i];
    }
  }

  private void equations(int values, double[][] normal, double[] gradient) {
    for (int v = 0; v < values; v++) {
      gradient[v] = 0;
      for (int w = 0; w <= v; w++) {
        normal[v][w] = 0;
      }
      for (int k = 0; k < axes; k++) {
        gradient[v] += dot(jacobian[k][v], free[k]);
        for (int w = 0; w <= v; w++) {
          normal[v][w] += dot(jacobian[k][v], jacobian[k][w]);
        }
      }
      for (int w = 0; w < v; w++) {
        normal[w][v] = normal[v][w];
      }
    }
  }

  private void white(ThumpShape s, double[][][] into, double rise) {
    s.write((-EARLY - ORDER - s.onset()) * spacing, spacing, rise, valid, cos, sin);
    white(cos, sin, into);
  }

  private void white(double[] c, double[] s, double[][][] into) {
    for (int k = 0; k < axes; k++) {
      Arrays.fill(into[k][0], 0);
      Arrays.fill(into[k][1], 0);
      if (model.active(k)) {
        model.whiten(k, c, 0, valid, into[k][0]);
        model.whiten(k, s, 0, valid, into[k][1]);
        clean(k, into[k][0]);
        clean(k, into[k][1]);
      }
    }
  }

  /** Drop in energy with the best amplitudes of a shape. */
  private double solve(ThumpShape s, double[][][] into, double rise) {
    white(s, into, rise);
    return amplitudes(into);
  }

  private double amplitudes(double[][][] into) {
    double sum = 0;
    for (int k = 0; k < axes; k++) {
      double[] h = gram[k];
      h[0] = dot(into[k][0], into[k][0]);
      h[1] = dot(into[k][0], into[k][1]);
      h[2] = dot(into[k][1], into[k][1]);
      double p = dot(into[k][0], free[k]);
      double q = dot(into[k][1], free[k]);
      double determinant = h[0] * h[2] - h[1] * h[1];
      double[] c = coefficients[k];
      if (determinant > 1e-9 * h[0] * h[2]) {
        c[0] = (h[2] * p - h[1] * q) / determinant;
        c[1] = (h[0] * q - h[1] * p) / determinant;
      } else {
        c[0] = 0;
        c[1] = 0;
      }
      explained[k] = c[0] * p + c[1] * q;
      sum += explained[k];
    }
    return sum;
  }

  /** Gives both axes one waveform with two gains if that explains nearly as much. */
  void joinWaveforms() {
    if (axes == 2 && model.active(0) && model.active(1)) {
      OneWaveform.join(gram, coefficients, explained[0] >= explained[1] ? 0 : 1);
    }
  }

  /** What is left along an axis, whitened; index {@link #EARLY} + order is the reference. */
  void remains(int k, double[] out) {
    for (int i = 0; i < valid; i++) {
      out[i] =
          free[k][i] - coefficients[k][0] * basis[k][0][i] - coefficients[k][1] * basis[k][1][i];
    }
    Arrays.fill(out, valid, ORDER + rows, 0);
  }
}
