package org.groovemend.playback;

/**
 * A digital filter {@code y[n] = (sum b[k] x[n-k] - sum a[k] y[n-k]) / a[0]}, without state of its
 * own: what came before the range is read from the arrays, or taken as zero before their beginning.
 */
public final class RecursiveFilter {
  private final double[] b;
  private final double[] a;

  RecursiveFilter(double[] b, double[] a) {
    double lead = a[0];
    this.b = scaled(b, 1 / lead);
    this.a = scaled(a, 1 / lead);
  }

  /**
   * Filters {@code x[from, to)} into {@code y[from, to)}; {@code y} must not be {@code x}. Input
   * and output before {@code from} count as zero.
   */
  public void fromRest(double[] x, double[] y, int from, int to) {
    run(x, y, from, from, to);
  }

  /**
   * Continues: input and output in [start, from) are taken as they stand, before {@code start} as
   * zero.
   */
  public void run(double[] x, double[] y, int start, int from, int to) {
    int reach = Math.max(a.length, b.length) - 1;
    int settled = Math.min(to, Math.max(from, start + reach));
    for (int n = from; n < settled; n++) {
      step(x, y, n, n - start);
    }
    for (int n = settled; n < to; n++) {
      step(x, y, n, reach);
    }
  }

  private void step(double[] x, double[] y, int n, int available) {
    double sum = 0;
    for (int k = Math.min(b.length - 1, available); k >= 0; k--) {
      sum += b[k] * x[n - k];
    }
    for (int k = Math.min(a.length - 1, available); k >= 1; k--) {
      sum -= a[k] * y[n - k];
    }
    y[n] = sum;
  }

  public double[] numerator() {
    return b.clone();
  }

  public double[] denominator() {
    return a.clone();
  }

  /** Gain in dB at a frequency given in cycles per sample. */
  public double gainDb(double cyclesPerSample) {
    return 10 * StrictMath.log10(power(b, cyclesPerSample) / power(a, cyclesPerSample));
  }

  /**
   * Phase in radians at a frequency given in cycles per sample, each polynomial's within half a
   * turn.
   */
  public double phase(double cyclesPerSample) {
    return angle(b, cyclesPerSample) - angle(a, cyclesPerSample);
  }

  private static double power(double[] c, double f) {
    double re = real(c, f);
    double im = imaginary(c, f);
    return re * re + im * im;
  }

  private static double angle(double[] c, double f) {
    return StrictMath.atan2(imaginary(c, f), real(c, f));
  }

  private static double real(double[] c, double f) {
    double sum = 0;
    for (int k = 0; k < c.length; k++) {
      sum += c[k] * StrictMath.cos(2 * Math.PI * f * k);
    }
    return sum;
  }

  private static double imaginary(double[] c, double f) {
    double sum = 0;
    for (int k = 0; k < c.length; k++) {
      sum -= c[k] * StrictMath.sin(2 * Math.PI * f * k);
    }
    return sum;
  }

  private static double[] scaled(double[] c, double factor) {
    double[] out = new double[c.length];
    for (int i = 0; i < c.length; i++) {
      out[i] = c[i] * factor;
    }
    return out;
  }
}
