package org.groovemend.simulate;

/**
 * A two-pole resonance of unit gain at its peak, whose frequency may glide (D. Klatt, J. Acoust.
 * Soc. Am. 67(3), 1980, normalised to the peak in place of 0 Hz).
 */
final class Resonator {
  private final double rate;
  private double gain;
  private double a1;
  private double a2;
  private double y1;
  private double y2;

  Resonator(double hz, double bandwidthHz, double rate) {
    this.rate = rate;
    tune(hz, bandwidthHz);
  }

  void tune(double hz, double bandwidthHz) {
    double r = StrictMath.exp(-Math.PI * bandwidthHz / rate);
    double angle = 2 * Math.PI * hz / rate;
    a1 = 2 * r * StrictMath.cos(angle);
    a2 = -r * r;
    // |1 - r e^(-2 j angle)| (1 - r) is the inverse of the gain at the peak
    double re = 1 - r * StrictMath.cos(2 * angle);
    double im = r * StrictMath.sin(2 * angle);
    gain = (1 - r) * Math.sqrt(re * re + im * im);
  }

  double next(double x) {
    double y = gain * x + a1 * y1 + a2 * y2;
    y2 = y1;
    y1 = y;
    return y;
  }
}
