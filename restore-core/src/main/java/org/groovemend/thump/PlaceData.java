package org.groovemend.thump;

import java.util.Arrays;

/**
 * The low band around a place as the music's models whiten it, along each axis, with instants that
 * are declared unknown. One instance per thread.
 */
final class PlaceData {
  private static final int ORDER = ThumpGeometry.ORDER;

  /** Instants judged before the reference. */
  static final int EARLY = 20;

  /** Index of the reference. */
  static final int REFERENCE = ORDER + EARLY;

  /** Most instants that can be unknown. */
  private static final int MOST_UNKNOWN = 16;

  private final MusicModel model;
  private final int axes;
  private final int length;
  private final double[][] data;
  private final double[][] free;
  private final double[][][] pulses;
  private final double[][] part;
  private final double[] axis;
  private int pulseCount;

  /** The pulses are 0 outside of this range. */
  private int pulseFrom;

  private int pulseLength;
  private int valid;

  PlaceData(ThumpGeometry g, MusicModel model, int axes) {
    this.model = model;
    this.axes = axes;
    this.length = REFERENCE + g.judged();
    data = new double[axes][length];
    free = new double[axes][length];
    pulses = new double[axes][MOST_UNKNOWN][length];
    part = new double[axes][length];
    axis = new double[length];
  }

  int axes() {
    return axes;
  }

  /** Values of each array here, the first {@code ORDER} of them 0. */
  int length() {
    return length;
  }

  /** Values that lie within the side. */
  int valid() {
    return valid;
  }

  MusicModel model() {
    return model;
  }

  /** What is judged along an axis: whitened, without what unknown instants can explain. */
  double[] free(int k) {
    return free[k];
  }

  /** Whitened energy. */
  double energy() {
    double sum = 0;
    for (double[] v : free) {
      sum += dot(v, v);
    }
    return sum;
  }

  /** Values that are compared. */
  int count() {
    int active = 0;
    for (int k = 0; k < axes; k++) {
      active += model.active(k) ? 1 : 0;
    }
    return active * (length - ORDER - pulseCount);
  }

  /**
   * Takes the low band in; all instants are known.
   *
   * @param x one array per channel, with at least {@link #REFERENCE} samples before the reference
   * @param reference index of the reference
   * @param to end of the valid samples; beyond, the ring is not judged
   */
  void load(double[][] x, int reference, int to) {
    int lo = reference - REFERENCE;
    valid = Math.min(length, to - lo);
    for (int c = 0; c < x.length; c++) {
      System.arraycopy(x[c], lo, part[c], 0, valid);
    }
    for (int k = 0; k < axes; k++) {
      Arrays.fill(data[k], 0);
      if (model.active(k)) {
        model.project(part, k, 0, valid, axis, 0);
        model.whiten(k, axis, 0, valid, data[k]);
      }
      System.arraycopy(data[k], 0, free[k], 0, length);
    }
    pulseCount = 0;
  }

  /** Declares the instants from {@code from} to {@code to} after the reference to be unknown. */
  void forget(int from, int to) {
    pulseCount = 0;
    pulseFrom = Math.max(0, REFERENCE + from);
    pulseLength = Math.max(0, Math.min(length, REFERENCE + to + ORDER) - pulseFrom);
    for (int m = from; m < to && pulseCount < MOST_UNKNOWN; m++) {
      for (int k = 0; k < axes; k++) {
        double[] u = pulses[k][pulseCount];
        Arrays.fill(u, 0);
        if (!model.active(k)) {
          continue;
        }
        int at = REFERENCE + m;
        for (int i = 0; i <= ORDER && at + i < valid; i++) {
          u[at + i] = model.coefficients(k)[i];
        }
        for (int q = 0; q < pulseCount; q++) {
          remove(u, pulses[k][q]);
        }
        double norm = Math.sqrt(dot(u, u));
        for (int i = 0; i < u.length; i++) {
          u[i] = norm > 0 ? u[i] / norm : 0;
        }
      }
      pulseCount++;
    }
    for (int k = 0; k < axes; k++) {
      System.arraycopy(data[k], 0, free[k], 0, length);
      clean(k, free[k]);
    }
  }

  /** Whitens a waveform like the data; silent along an axis on which nothing is heard. */
  void whiten(int k, double[] wave, double[] out) {
    Arrays.fill(out, 0);
    if (model.active(k)) {
      model.whiten(k, wave, 0, valid, out);
      clean(k, out);
    }
  }

  private void clean(int k, double[] v) {
    for (int q = 0; q < pulseCount; q++) {
      remove(v, pulses[k][q]);
    }
  }

  private void remove(double[] v, double[] unit) {
    double p = dot(v, pulseFrom, unit, pulseFrom, pulseLength);
    for (int i = pulseFrom; i < pulseFrom + pulseLength; i++) {
      v[i] -= p * unit[i];
    }
  }

  static double dot(double[] x, double[] y) {
    return dot(x, 0, y, 0, x.length);
  }

  /** Sum of {@code n} products, in four parts so that they need not wait for one another. */
  static double dot(double[] x, int i, double[] y, int j, int n) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int m = 0;
    for (; m + 3 < n; m += 4) {
      s0 += x[i + m] * y[j + m];
      s1 += x[i + m + 1] * y[j + m + 1];
      s2 += x[i + m + 2] * y[j + m + 2];
      s3 += x[i + m + 3] * y[j + m + 3];
    }
    for (; m < n; m++) {
      s0 += x[i + m] * y[j + m];
    }
    return (s0 + s1) + (s2 + s3);
  }
}
