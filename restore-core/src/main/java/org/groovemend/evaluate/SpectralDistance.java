package org.groovemend.evaluate;

import org.groovemend.signal.fft.RealFft;

/** Log-spectral distance from a sound, see {@link Scorer}. */
final class SpectralDistance {
  private static final int SIZE = 2048;
  private static final double RANGE_DB = 80;

  private final double[][] sound;
  private final int from;
  private final RealFft fft = new RealFft(SIZE);
  private final double[] window = new double[SIZE];
  private final double[] a = new double[SIZE];
  private final double floor;

  SpectralDistance(double[][] sound, int from) {
    this.sound = sound;
    this.from = from;
    for (int n = 0; n < SIZE; n++) {
      window[n] = 0.5 - 0.5 * StrictMath.cos(2 * Math.PI * (n + 0.5) / SIZE);
    }
    double loudest = 0;
    double[] power = new double[SIZE / 2];
    for (double[] channel : sound) {
      for (int at = from; at + SIZE <= channel.length; at += SIZE / 2) {
        transform(channel, at, power);
        for (double p : power) {
          loudest = Math.max(loudest, p);
        }
      }
    }
    this.floor = Math.max(1e-300, loudest * StrictMath.pow(10, -RANGE_DB / 10));
  }

  /** Mean over frames and channels, dB; NaN if the sound is shorter than a frame. */
  double to(double[][] other) {
    double[] p = new double[SIZE / 2];
    double[] q = new double[SIZE / 2];
    double sum = 0;
    int count = 0;
    for (int c = 0; c < sound.length; c++) {
      for (int at = from; at + SIZE <= sound[c].length; at += SIZE / 2) {
        transform(sound[c], at, p);
        transform(other[c], at, q);
        double square = 0;
        for (int k = 1; k < p.length; k++) {
          double d = 10 * StrictMath.log10(Math.max(floor, q[k]) / Math.max(floor, p[k]));
          square += d * d;
        }
        sum += Math.sqrt(square / (p.length - 1));
        count++;
      }
    }
    return sum / count;
  }

  private void transform(double[] x, int at, double[] power) {
    for (int n = 0; n < SIZE; n++) {
      a[n] = window[n] * x[at + n];
    }
    fft.forward(a);
    for (int k = 1; k < power.length; k++) {
      power[k] = a[2 * k] * a[2 * k] + a[2 * k + 1] * a[2 * k + 1];
    }
  }
}
