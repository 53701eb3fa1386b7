package org.groovemend.thump;

/**
 * One displacement of the stylus gives both axes the same waveform with two gains: found by
 * alternating least squares.
 */
final class OneWaveform {
  private static final int ROUNDS = 20;

  /** Loss below which one waveform is believed; its mean is 1 if it is true. */
  private static final double MOST_LOSS = 12;

  private OneWaveform() {}

  /**
   * Replaces the amplitudes of two axes by those of one waveform if that loses little.
   *
   * @param gram of each axis: cosine with itself, cosine with sine, sine with itself
   * @param amplitudes cosine and sine amplitude of each axis
   * @param strong axis from whose waveform to set out
   */
  static void join(double[][] gram, double[][] amplitudes, int strong) {
    double[] wave = amplitudes[strong].clone();
    double[] gain = new double[2];
    for (int round = 0; round < ROUNDS; round++) {
      double[] h = new double[3];
      double[] b = new double[2];
      for (int k = 0; k < 2; k++) {
        double[] q = gram[k];
        double p0 = q[0] * amplitudes[k][0] + q[1] * amplitudes[k][1];
        double p1 = q[1] * amplitudes[k][0] + q[2] * amplitudes[k][1];
        double power = energy(q, wave[0], wave[1]);
        gain[k] = power > 0 ? (wave[0] * p0 + wave[1] * p1) / power : 0;
        for (int i = 0; i < 3; i++) {
          h[i] += gain[k] * gain[k] * q[i];
        }
        b[0] += gain[k] * p0;
        b[1] += gain[k] * p1;
      }
      double determinant = h[0] * h[2] - h[1] * h[1];
      if (!(determinant > 0)) {
        return;
      }
      wave[0] = (h[2] * b[0] - h[1] * b[1]) / determinant;
      wave[1] = (h[0] * b[1] - h[1] * b[0]) / determinant;
    }
    double loss = 0;
    for (int k = 0; k < 2; k++) {
      double d0 = amplitudes[k][0] - gain[k] * wave[0];
      double d1 = amplitudes[k][1] - gain[k] * wave[1];
      loss += energy(gram[k], d0, d1);
    }
    if (loss < MOST_LOSS) {
      for (int k = 0; k < 2; k++) {
        amplitudes[k][0] = gain[k] * wave[0];
        amplitudes[k][1] = gain[k] * wave[1];
      }
    }
  }

  private static double energy(double[] gram, double cos, double sin) {
    return gram[0] * cos * cos + 2 * gram[1] * cos * sin + gram[2] * sin * sin;
  }
}
