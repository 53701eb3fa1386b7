package org.groovemend.audit;

import java.util.Random;

/**
 * Invented music for tests: plucked chords, a melody, struck noise, a soft groove, two channels.
 */
final class Music {
  private Music() {}

  static double[][] play(long seed, int rate, int channels, double seconds) {
    Random random = new Random(seed);
    int n = (int) Math.round(seconds * rate);
    double[][] x = new double[channels][n];
    double t = 0.05;
    while (t < seconds - 0.1) {
      double hertz = 110 * Math.pow(2, random.nextInt(36) / 12.0);
      double level = 0.03 + 0.08 * random.nextDouble();
      double decay = 0.15 + 0.6 * random.nextDouble();
      double pan = 0.2 + 0.6 * random.nextDouble();
      int partials = 2 + random.nextInt(8);
      note(x, rate, t, hertz, level, decay, pan, partials, random);
      if (random.nextInt(3) == 0) {
        hit(x, rate, t, 0.02 + 0.06 * random.nextDouble(), 1 - pan, random);
      }
      t += 0.06 + 0.3 * random.nextDouble();
    }
    double groove = 0.0004 + 0.001 * random.nextDouble();
    for (int c = 0; c < channels; c++) {
      double low = 0;
      for (int i = 0; i < n; i++) {
        low = 0.7 * low + groove * random.nextGaussian();
        x[c][i] += low;
      }
    }
    return x;
  }

  private static void note(
      double[][] x,
      int rate,
      double t,
      double hertz,
      double level,
      double decay,
      double pan,
      int partials,
      Random random) {
    int from = (int) (t * rate);
    int length = (int) Math.min(x[0].length - from, 4 * decay * rate);
    for (int p = 1; p <= partials && p * hertz < 0.42 * rate; p++) {
      double phase = 2 * Math.PI * random.nextDouble();
      double w = 2 * Math.PI * hertz * p * (1 + 0.0004 * p * p) / rate;
      double a = level / p;
      for (int i = 0; i < length; i++) {
        double v =
            a
                * Math.min(1, i / (0.004 * rate))
                * Math.exp(-i / (decay * rate) * (1 + 0.2 * p))
                * Math.sin(w * i + phase);
        x[0][from + i] += (x.length == 1 ? 1 : pan) * v;
        if (x.length == 2) {
          x[1][from + i] += (1 - pan) * v;
        }
      }
    }
  }

  private static void hit(
      double[][] x, int rate, double t, double level, double pan, Random random) {
    int from = (int) (t * rate);
    int length = Math.min(x[0].length - from, rate / 8);
    for (int i = 0; i < length; i++) {
      double v = level * Math.exp(-i / (0.02 * rate)) * random.nextGaussian();
      x[0][from + i] += (x.length == 1 ? 1 : pan) * v;
      if (x.length == 2) {
        x[1][from + i] += (1 - pan) * v;
      }
    }
  }
}
