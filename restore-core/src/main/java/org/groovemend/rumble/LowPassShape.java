package org.groovemend.rumble;

/**
 * A low-pass without phase: gain {@code 1 / (1 + (f / corner)^(2 * order))}. What it leaves of a
 * signal, the signal less its output, has the gain {@code 1 / (1 + (corner / f)^(2 * order))}: that
 * of a Butterworth high-pass run forwards and backwards (S. Butterworth, Experimental Wireless and
 * the Wireless Engineer 7, 1930), -6.02 dB at the corner, {@code 12 * order} dB per octave below.
 *
 * @param cornerHertz above 0
 * @param order 1 or more
 */
record LowPassShape(double cornerHertz, int order) {

  /** Gain beyond {@link #edgeHertz()}, and about what is lost by ending the impulse response. */
  static final double SMALL = 1e-6;

  private static final double TAIL = 1e-7;

  double gain(double hertz) {
    return 1 / (1 + StrictMath.pow(hertz / cornerHertz, 2 * order));
  }

  /** Frequency from which the gain is below {@link #SMALL}. */
  double edgeHertz() {
    return cornerHertz * StrictMath.pow(SMALL, -0.5 / order);
  }

  /** Time from which the impulse response stays below 1e-7 of its height at 0. */
  double reachSeconds() {
    double slowest = StrictMath.sin(Math.PI / (2 * order));
    return -StrictMath.log(TAIL / (2 * slowest)) / (2 * Math.PI * cornerHertz * slowest);
  }

  /**
   * Impulse response per second, the same before 0 as after: the sum of the residues of the gain at
   * its poles in one half-plane, {@code corner * exp(i * pi * (2 * k + 1) / (2 * order))}.
   */
  double impulse(double seconds) {
    double turn = 2 * Math.PI * cornerHertz;
    double t = turn * Math.abs(seconds);
    double sum = 0;
    for (int k = 0; k < order; k++) {
      double angle = Math.PI * (2 * k + 1) / (2 * order);
      double sin = StrictMath.sin(angle);
      sum += StrictMath.exp(-t * sin) * StrictMath.sin(angle + t * StrictMath.cos(angle));
    }
    return turn / (2 * order) * sum;
  }

  /**
   * The impulse response sampled, {@code 2 * half + 1} values that add up to 1.
   *
   * @param rate of the samples, Hz
   */
  double[] sampled(double rate, int half) {
    double[] h = new double[2 * half + 1];
    double sum = 0;
    for (int k = 0; k < h.length; k++) {
      h[k] = impulse((k - half) / rate);
      sum += h[k];
    }
    for (int k = 0; k < h.length; k++) {
      h[k] /= sum;
    }
    return h;
  }
}
