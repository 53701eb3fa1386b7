package org.groovemend.simulate;

/**
 * One second-order filter section with its state; direct form II transposed, a0 = 1.
 *
 * <p>Designed from an analogue prototype by the bilinear transform with the corner frequency kept.
 */
final class Section {

  private final double b0;
  private final double b1;
  private final double b2;
  private final double a1;
  private final double a2;
  private double s1;
  private double s2;

  private Section(double b0, double b1, double b2, double a0, double a1, double a2) {
    this.b0 = b0 / a0;
    this.b1 = b1 / a0;
    this.b2 = b2 / a0;
    this.a1 = a1 / a0;
    this.a2 = a2 / a0;
  }

  static Section through() {
    return new Section(1, 0, 0, 1, 0, 0);
  }

  private static double prewarped(double cornerHz, double rateHz) {
    if (!(cornerHz > 0 && cornerHz < rateHz / 2)) {
      throw new IllegalArgumentException(
          "corner " + cornerHz + " Hz is not between 0 and half the rate " + rateHz + " Hz");
    }
    return StrictMath.tan(Math.PI * cornerHz / rateHz);
  }

  /** H(s) = 1 / (1 + s/(w0 Q) + s^2/w0^2). */
  static Section lowPass(double cornerHz, double q, double rateHz) {
    double k = prewarped(cornerHz, rateHz);
    double kk = k * k;
    return new Section(kk, 2 * kk, kk, 1 + k / q + kk, 2 * (kk - 1), 1 - k / q + kk);
  }

  /** H(s) = s^2/w0^2 / (1 + s/(w0 Q) + s^2/w0^2). */
  static Section highPass(double cornerHz, double q, double rateHz) {
    double k = prewarped(cornerHz, rateHz);
    double kk = k * k;
    return new Section(1, -2, 1, 1 + k / q + kk, 2 * (kk - 1), 1 - k / q + kk);
  }

  double next(double x) {
    double y = b0 * x + s1;
    s1 = b1 * x - a1 * y + s2;
    s2 = b2 * x - a2 * y;
    return y;
  }

  void process(double[] samples) {
    for (int i = 0; i < samples.length; i++) {
      samples[i] = next(samples[i]);
    }
  }
}
