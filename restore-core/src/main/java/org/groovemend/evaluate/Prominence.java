package org.groovemend.evaluate;

import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.RobustScale;

/**
 * How far damage stands out of undamaged sound: peak of the damage over the robust deviation of the
 * sound's prediction error in the 512 samples about it (order 32, autocorrelation method, 2048
 * samples).
 */
final class Prominence {
  private static final int ORDER = 32;
  private static final int SIZE = 2048;
  private static final int REACH = 256;
  private static final double QUIETEST = 1e-7;

  private final Autocorrelation autocorrelation = new Autocorrelation(SIZE, ORDER);
  private final double[] r = new double[ORDER + 1];
  private final double[] a = new double[ORDER + 1];
  private final double[] e = new double[SIZE];
  private final double[] work = new double[SIZE];
  private final double[] window = new double[SIZE];

  Prominence() {
    for (int n = 0; n < SIZE; n++) {
      window[n] = 0.5 - 0.5 * StrictMath.cos(2 * Math.PI * (n + 0.5) / SIZE);
    }
  }

  /**
   * Measures damage that begins at a frame.
   *
   * @param sound undamaged
   * @param damage samples from {@code start} on
   * @param start frame of the sound
   */
  double of(double[] sound, double[] damage, int start) {
    if (sound.length < SIZE) {
      return 0;
    }
    int from = Math.max(0, Math.min(sound.length - SIZE, start - SIZE / 2));
    autocorrelation.compute(sound, from, SIZE, window, r);
    double deviation = QUIETEST;
    a[0] = 1;
    java.util.Arrays.fill(a, 1, ORDER + 1, 0);
    if (r[0] > QUIETEST * QUIETEST) {
      r[0] *= 1 + 1e-7;
      LevinsonDurbin.solve(r, ORDER, a, null);
      double[] piece = java.util.Arrays.copyOfRange(sound, from, from + SIZE);
      int centre = Math.max(ORDER + REACH, Math.min(SIZE - REACH, start - from));
      PredictionFilter.residual(a, ORDER, piece, centre - REACH, centre + REACH, e);
      deviation =
          Math.max(QUIETEST, RobustScale.aboutZero(e, centre - REACH, centre + REACH, work));
    }
    double most = 0;
    for (double d : damage) {
      most = Math.max(most, Math.abs(d));
    }
    return most / deviation;
  }
}
