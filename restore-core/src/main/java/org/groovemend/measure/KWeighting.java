package org.groovemend.measure;

/**
 * The K-weighting of ITU-R BS.1770, Annex 1: a shelf for the head, then a high-pass; one channel,
 * sample by sample.
 *
 * <p>At 48 kHz the printed coefficients; at other rates the two analogue sections behind them
 * through the bilinear transform (constants in general use, which give the printed set back).
 * Checked against fixtures/reference/loudness/k_weighting.csv.
 */
public final class KWeighting {
  private static final double SHELF_HERTZ = 1681.974450955533;
  private static final double SHELF_DB = 3.999843853973347;
  private static final double SHELF_Q = 0.7071752369554196;
  private static final double SHELF_MIDDLE = 0.4996667741545416;
  private static final double HIGH_PASS_HERTZ = 38.13547087602444;
  private static final double HIGH_PASS_Q = 0.5003270373238773;

  private final double[] shelf;
  private final double[] highPass;
  private double s1;
  private double s2;
  private double h1;
  private double h2;

  public KWeighting(int sampleRateHz) {
    double k = StrictMath.tan(Math.PI * SHELF_HERTZ / sampleRateHz);
    double high = StrictMath.pow(10, SHELF_DB / 20);
    double middle = StrictMath.pow(high, SHELF_MIDDLE);
    double a0 = 1 + k / SHELF_Q + k * k;
    shelf =
        new double[] {
          (high + middle * k / SHELF_Q + k * k) / a0,
          2 * (k * k - high) / a0,
          (high - middle * k / SHELF_Q + k * k) / a0,
          2 * (k * k - 1) / a0,
          (1 - k / SHELF_Q + k * k) / a0
        };
    double h = StrictMath.tan(Math.PI * HIGH_PASS_HERTZ / sampleRateHz);
    double c0 = 1 + h / HIGH_PASS_Q + h * h;
    highPass = new double[] {1, -2, 1, 2 * (h * h - 1) / c0, (1 - h / HIGH_PASS_Q + h * h) / c0};
  }

  /** b0, b1, b2, a1, a2 of the shelf. */
  double[] shelf() {
    return shelf.clone();
  }

  /** The same of the high-pass. */
  double[] highPass() {
    return highPass.clone();
  }

  /** The next sample, weighted. */
  public double next(double x) {
    double y = shelf[0] * x + s1;
    s1 = shelf[1] * x - shelf[3] * y + s2;
    s2 = shelf[2] * x - shelf[4] * y;
    double z = highPass[0] * y + h1;
    h1 = highPass[1] * y - highPass[3] * z + h2;
    h2 = highPass[2] * y - highPass[4] * z;
    return z;
  }
}
