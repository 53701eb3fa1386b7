package org.groovemend.measure;

/**
 * Second-order Butterworth high-pass, sample by sample: 3 dB down at its corner.
 *
 * <p>The analogue form s² / (s² + √2 s + 1) through the bilinear transform with the corner
 * prewarped, as in any textbook of digital signal processing; checked against {@code
 * scipy.signal.butter}. Runs in the transposed direct form II.
 */
public final class HighPass {

  private final double b;
  private final double a1;
  private final double a2;
  private double s1;
  private double s2;

  /**
   * @param cornerHertz above 0 and below half the rate
   */
  public HighPass(double cornerHertz, int sampleRateHz) {
    if (!(cornerHertz > 0 && cornerHertz < sampleRateHz / 2.0)) {
      throw new IllegalArgumentException(
          "corner " + cornerHertz + " Hz is not between 0 and half of " + sampleRateHz + " Hz");
    }
    double k = StrictMath.tan(Math.PI * cornerHertz / sampleRateHz);
    double norm = 1 / (1 + Math.sqrt(2) * k + k * k);
    b = norm;
    a1 = 2 * (k * k - 1) * norm;
    a2 = (1 - Math.sqrt(2) * k + k * k) * norm;
  }

  /** The next sample. */
  public double next(double x) {
    double y = b * x + s1;
    s1 = -2 * b * x - a1 * y + s2;
    s2 = b * x - a2 * y;
    return y;
  }
}
