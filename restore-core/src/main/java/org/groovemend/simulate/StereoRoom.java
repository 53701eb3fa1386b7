package org.groovemend.simulate;

/**
 * Two microphones, 0.3 m apart, in a small room: sources arrive by their direction, then six echoes
 * of the walls, then diffuse sound of feedback combs (M. Schroeder, J. Audio Eng. Soc. 10(3),
 * 1962). The echoes are as sharp as the sound itself.
 */
final class StereoRoom {
  private static final double[] ECHO_SECONDS = {0.0043, 0.0071, 0.0098, 0.0134, 0.0179, 0.0231};
  private static final double[] COMB_SECONDS = {0.0297, 0.0371, 0.0411, 0.0437};
  private static final double SPACING_SECONDS = 0.3 / 343;

  private final int rate;
  private final double level;
  private final double decaySeconds;
  private final double[][] out;

  /**
   * @param level of each echo and of the diffuse sound re the direct sound
   * @param decaySeconds time in which the diffuse sound falls by 60 dB
   */
  StereoRoom(int rate, int frames, double level, double decaySeconds) {
    this.rate = rate;
    this.level = level;
    this.decaySeconds = decaySeconds;
    this.out = new double[2][frames];
  }

  /**
   * Adds a source.
   *
   * @param pan -1 left to 1 right
   */
  void add(double[] source, double pan) {
    for (int c = 0; c < 2; c++) {
      double side = c == 0 ? -pan : pan;
      double gain = 1 + 0.4 * side;
      int late = (int) Math.round(SPACING_SECONDS * Math.max(0, -side) * rate);
      delayed(source, out[c], late, gain);
      for (int k = 0; k < ECHO_SECONDS.length; k++) {
        double seconds = ECHO_SECONDS[k] * (1 + 0.11 * (c == 0 ? pan : -pan) + 0.07 * c);
        double sign = k % 2 == 0 ? 1 : -1;
        delayed(
            source,
            out[c],
            (int) Math.round(seconds * rate),
            sign * level * StrictMath.pow(0.82, k));
      }
      combs(source, out[c], c);
    }
  }

  double[][] sound() {
    return out;
  }

  private static void delayed(double[] in, double[] into, int delay, double gain) {
    for (int n = delay; n < Math.min(into.length, in.length + delay); n++) {
      into[n] += gain * in[n - delay];
    }
  }

  private void combs(double[] in, double[] into, int channel) {
    for (double seconds : COMB_SECONDS) {
      double length = seconds * (1 + 0.013 * channel);
      int delay = (int) Math.round(length * rate);
      double feedback = StrictMath.pow(10, -3 * length / decaySeconds);
      double dark = 0;
      double step = 1 - StrictMath.exp(-2 * Math.PI * 5_000 / rate);
      double[] line = new double[delay];
      for (int n = 0; n < into.length; n++) {
        int at = n % delay;
        double y = line[at];
        dark += step * (y - dark);
        line[at] = (n < in.length ? in[n] : 0) + feedback * dark;
        into[n] += 0.5 * level * y;
      }
    }
  }
}
