package org.groovemend.hum;

/**
 * Measured phase smoothed as that of a frequency that wanders: state phase and frequency, the
 * frequency a random walk whose step is the likeliest of a row; Kalman filter and
 * Rauch-Tung-Striebel smoother. For a still frequency that is the least-squares line through the
 * phases, which reaches the Cramer-Rao bound above threshold (S. Tretter, IEEE Trans. Inf. Theory
 * 31(6), 1985).
 */
final class SteadyPhase {
  /** Variance of the frequency's step from knot to knot, squared cycles a knot. */
  private static final double[] STEPS = {
    1e-14, 1e-12, 1e-11, 1e-10, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3
  };

  private static final double ANY = 1e4;

  private final double[] phase;
  private final double[] variance;
  private final double[] c;
  private final double[] f;
  private final double[] pcc;
  private final double[] pcf;
  private final double[] pff;

  private SteadyPhase(double[] phase, double[] variance) {
    int n = phase.length;
    this.phase = phase;
    this.variance = variance;
    this.c = new double[n];
    this.f = new double[n];
    this.pcc = new double[n];
    this.pcf = new double[n];
    this.pff = new double[n];
  }

  /**
   * @param phase cycles, unwrapped
   * @param variance of each, squared cycles; infinite where nothing was measured
   * @return smoothed, cycles
   */
  static double[] of(double[] phase, double[] variance) {
    SteadyPhase s = new SteadyPhase(phase, variance);
    double best = Double.NEGATIVE_INFINITY;
    double chosen = STEPS[0];
    for (int i = 0; i < STEPS.length; i++) {
      double step = STEPS[i];
      // a freer walk must earn it: the mains are steady more often than not
      double likelihood = s.filter(step) - i;
      if (likelihood > best) {
        best = likelihood;
        chosen = step;
      }
    }
    s.filter(chosen);
    s.smooth(chosen);
    return s.c;
  }

  private double filter(double q) {
    double x = phase[0];
    double y = 0;
    double cc = ANY;
    double cf = 0;
    double ff = ANY;
    double sum = 0;
    for (int j = 0; j < c.length; j++) {
      if (j > 0) {
        x += y;
        cc += 2 * cf + ff + q / 3;
        cf += ff + q / 2;
        ff += q;
      }
      if (!Double.isInfinite(variance[j])) {
        double s = cc + variance[j];
        double d = phase[j] - x;
        sum -= 0.5 * (d * d / s + StrictMath.log(s));
        double gainC = cc / s;
        double gainF = cf / s;
        x += gainC * d;
        y += gainF * d;
        ff -= gainF * cf;
        cf *= variance[j] / s;
        cc *= variance[j] / s;
      }
      c[j] = x;
      f[j] = y;
      pcc[j] = cc;
      pcf[j] = cf;
      pff[j] = ff;
    }
    return sum;
  }

  private void smooth(double q) {
    for (int j = c.length - 2; j >= 0; j--) {
      // predicted covariance of the next knot
      double a = pcc[j] + 2 * pcf[j] + pff[j] + q / 3;
      double b = pcf[j] + pff[j] + q / 2;
      double d = pff[j] + q;
      double det = a * d - b * b;
      if (!(det > 0)) {
        continue;
      }
      double toC = pcc[j] + pcf[j];
      double toF = pcf[j] + pff[j];
      double dc = c[j + 1] - c[j] - f[j];
      double df = f[j + 1] - f[j];
      double u = (d * dc - b * df) / det;
      double v = (a * df - b * dc) / det;
      c[j] += toC * u + pcf[j] * v;
      f[j] += toF * u + pff[j] * v;
    }
  }
}
