package org.groovemend.evaluate;

import java.util.Random;

/** Sounds for tests, invented. */
final class Examples {
  static final int RATE = 44_100;

  private Examples() {}

  /** Five partials and a noise floor, different in the two channels. */
  static Sound music(int seconds, long seed) {
    Random random = new Random(seed);
    double[][] x = new double[2][seconds * RATE];
    for (int c = 0; c < 2; c++) {
      for (int n = 0; n < x[c].length; n++) {
        double v = 0;
        for (int k = 1; k <= 5; k++) {
          v += 0.1 / k * StrictMath.sin(2 * Math.PI * n * k * (220 + 30 * c) / RATE + k * c);
        }
        x[c][n] = v + 3e-4 * random.nextGaussian();
      }
    }
    return new Sound("partials", RATE, x);
  }
}
