package org.groovemend.audit;

import org.groovemend.measure.Decibels;

/** The largest difference in each of equal columns of time. */
final class DifferenceCourse {
  private static final int COLUMNS = 120;

  private final long frames;
  private final double[] peaks;
  private final double[] sound;

  DifferenceCourse(long frames) {
    this.frames = frames;
    int n = (int) Math.max(1, Math.min(COLUMNS, frames));
    peaks = new double[n];
    sound = new double[n];
  }

  void add(long frame, double difference, double sample) {
    int column = (int) (frame * peaks.length / Math.max(1, frames));
    peaks[column] = Math.max(peaks[column], Math.abs(difference));
    sound[column] = Math.max(sound[column], Math.abs(sample));
  }

  /** dB re full scale; negative infinity for none. */
  double[] differenceDbfs() {
    return decibels(peaks);
  }

  double[] soundDbfs() {
    return decibels(sound);
  }

  private static double[] decibels(double[] x) {
    double[] out = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      out[i] = Decibels.ofAmplitude(x[i]);
    }
    return out;
  }
}
