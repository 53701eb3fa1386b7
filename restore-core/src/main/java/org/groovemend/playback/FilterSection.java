package org.groovemend.playback;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;

/**
 * {@code y[n] = b0 x[n] + b1 x[n-1] + b2 x[n-2] - a1 y[n-1] - a2 y[n-2]}: one section of a cascade.
 *
 * @param b0 of the present sample
 * @param b1 of the one before
 * @param b2 of the one before that; 0 in a section of first order
 * @param a1 of the result before
 * @param a2 of the result before that
 */
public record FilterSection(double b0, double b1, double b2, double a1, double a2) {

  /** A factor {c0, c1, c2} with c0 = 1. */
  private static final double[] ONE = {1, 0, 0};

  /** Imaginary part below which a root is real. */
  private static final double REAL = 1e-7;

  /** A coefficient this small beside the first is none. */
  private static final double NOTHING = 1e-14;

  /**
   * Factors a filter.
   *
   * @param b polynomial in 1/z of the numerator, its first coefficient not 0
   * @param zeros real zeros besides
   * @param a polynomial of the denominator
   * @param poles real poles besides
   */
  static List<FilterSection> cascade(double[] b, double[] zeros, double[] a, double[] poles) {
    List<double[]> upper = factors(b, zeros);
    List<double[]> lower = factors(a, poles);
    double gain = b[0] / a[0];
    List<FilterSection> sections = new ArrayList<>();
    for (int i = 0; i < Math.max(1, Math.max(upper.size(), lower.size())); i++) {
      double[] u = i < upper.size() ? upper.get(i) : ONE;
      double[] l = i < lower.size() ? lower.get(i) : ONE;
      double g = i == 0 ? gain : 1;
      sections.add(new FilterSection(g * u[0], g * u[1], g * u[2], l[1], l[2]));
    }
    return List.copyOf(sections);
  }

  /** First the given real roots two by two, then those of the polynomial. */
  private static List<double[]> factors(double[] polynomial, double[] roots) {
    List<double[]> factors = new ArrayList<>();
    List<Double> real = new ArrayList<>();
    for (double root : roots) {
      real.add(root);
    }
    List<double[]> pairs = new ArrayList<>();
    for (Complex root : rootsOf(polynomial)) {
      if (Math.abs(root.getImaginary()) < REAL) {
        real.add(root.getReal());
      } else if (root.getImaginary() > 0) {
        double re = root.getReal();
        double im = root.getImaginary();
        pairs.add(new double[] {1, -2 * re, re * re + im * im});
      }
    }
    for (int i = 0; i < real.size(); i += 2) {
      double r = real.get(i);
      double s = i + 1 < real.size() ? real.get(i + 1) : 0;
      factors.add(new double[] {1, -r - s, r * s});
    }
    factors.addAll(pairs);
    return factors;
  }

  /** Eigenvalues of the companion matrix. */
  private static Complex[] rootsOf(double[] polynomial) {
    int degree = polynomial.length - 1;
    while (degree > 0 && Math.abs(polynomial[degree]) < NOTHING * Math.abs(polynomial[0])) {
      degree--;
    }
    if (degree == 0) {
      return new Complex[0];
    }
    double[][] companion = new double[degree][degree];
    for (int k = 0; k < degree; k++) {
      companion[0][k] = -polynomial[k + 1] / polynomial[0];
      if (k > 0) {
        companion[k][k - 1] = 1;
      }
    }
    EigenDecomposition eigen = new EigenDecomposition(new Array2DRowRealMatrix(companion, false));
    Complex[] roots = new Complex[degree];
    for (int k = 0; k < degree; k++) {
      roots[k] = new Complex(eigen.getRealEigenvalue(k), eigen.getImagEigenvalue(k));
    }
    return roots;
  }
}
