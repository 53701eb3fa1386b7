package org.groovemend.thump;

import java.util.Arrays;

/**
 * A ring of one shape at a place, with the amplitudes of its cosine and sine parts along each axis
 * that explain the most: linear generalised least squares. One instance per thread.
 */
final class RingBasis {
  private final PlaceData place;
  private final double spacing;
  private final double[] cos;
  private final double[] sin;
  private final double[][] whiteCos;
  private final double[][] whiteSin;
  private final double[][] gram;
  private final double[][] amplitudes;
  private final double[] explained;

  RingBasis(PlaceData place, double spacing) {
    this.place = place;
    this.spacing = spacing;
    int axes = place.axes();
    cos = new double[place.length()];
    sin = new double[place.length()];
    whiteCos = new double[axes][place.length()];
    whiteSin = new double[axes][place.length()];
    gram = new double[axes][3];
    amplitudes = new double[axes][2];
    explained = new double[axes];
  }

  /**
   * Fits the amplitudes of a shape.
   *
   * @param rise time constant of a soft beginning, in seconds, 0 for none
   * @return drop in whitened energy
   */
  double solve(ThumpShape s, double rise) {
    s.write((-PlaceData.REFERENCE - s.onset()) * spacing, spacing, rise, place.valid(), cos, sin);
    double sum = 0;
    for (int k = 0; k < place.axes(); k++) {
      place.whiten(k, cos, whiteCos[k]);
      place.whiten(k, sin, whiteSin[k]);
      double[] h = gram[k];
      h[0] = PlaceData.dot(whiteCos[k], whiteCos[k]);
      h[1] = PlaceData.dot(whiteCos[k], whiteSin[k]);
      h[2] = PlaceData.dot(whiteSin[k], whiteSin[k]);
      double p = PlaceData.dot(whiteCos[k], place.free(k));
      double q = PlaceData.dot(whiteSin[k], place.free(k));
      double determinant = h[0] * h[2] - h[1] * h[1];
      double[] a = amplitudes[k];
      boolean sound = determinant > 1e-9 * h[0] * h[2];
      a[0] = sound ? (h[2] * p - h[1] * q) / determinant : 0;
      a[1] = sound ? (h[0] * q - h[1] * p) / determinant : 0;
      explained[k] = a[0] * p + a[1] * q;
      sum += explained[k];
    }
    return sum;
  }

  /** Cosine and sine amplitude along an axis. */
  double[] amplitudes(int k) {
    return amplitudes[k];
  }

  /** Writes how far the ring along an axis is from {@code other} with the same amplitudes. */
  void difference(double[] otherCos, double[] otherSin, int k, double[] out) {
    double a = amplitudes[k][0];
    double b = amplitudes[k][1];
    for (int i = 0; i < place.valid(); i++) {
      out[i] = a * (otherCos[i] - cos[i]) + b * (otherSin[i] - sin[i]);
    }
  }

  /** Takes out of {@code v} what the cosine and sine parts can explain. */
  void project(int k, double[] v) {
    double[] h = gram[k];
    double p = PlaceData.dot(v, whiteCos[k]);
    double q = PlaceData.dot(v, whiteSin[k]);
    double determinant = h[0] * h[2] - h[1] * h[1];
    if (!(determinant > 1e-12 * h[0] * h[2])) {
      return;
    }
    double a = (h[2] * p - h[1] * q) / determinant;
    double b = (h[0] * q - h[1] * p) / determinant;
    for (int i = 0; i < v.length; i++) {
      v[i] -= a * whiteCos[k][i] + b * whiteSin[k][i];
    }
  }

  /** Gives both axes one waveform with two gains if that explains nearly as much. */
  void joinWaveforms() {
    MusicModel model = place.model();
    if (place.axes() == 2 && model.active(0) && model.active(1)) {
      OneWaveform.join(gram, amplitudes, explained[0] >= explained[1] ? 0 : 1);
    }
  }

  /** What is left along an axis, whitened. */
  void remains(int k, double[] out) {
    double[] free = place.free(k);
    double[] a = amplitudes[k];
    for (int i = 0; i < place.valid(); i++) {
      out[i] = free[i] - a[0] * whiteCos[k][i] - a[1] * whiteSin[k][i];
    }
    Arrays.fill(out, place.valid(), place.length(), 0);
  }
}
