package org.groovemend.walls;

import java.util.Arrays;

/**
 * Balance of the walls by octave: how each wall's power swells with the power they share, so that
 * neither steady noise nor noise of one wall enters (Shalvi and Weinstein 1996). Octaves that tell
 * little take over what all of them tell.
 */
final class WallBalance {
  /** No pickup is alike on both walls in every octave to less than this (our assumption). */
  private static final double LEAST_DIFFER_DB = 0.05;

  private static final double LEAST_DOUBT_DB = 0.01;

  private static final double MOST_DB = 12;
  private static final int LEAST_SLOTS = 4;
  private static final double FAR = 3;
  private static final int ROUNDS = 6;
  private static final double DB_OF_LOG = 10 / StrictMath.log(10);

  final double[] alone;
  final double[] doubt;
  final double[] applied;
  double all;
  double allDoubt;

  WallBalance(WallSlots slots) {
    int bands = slots.bands();
    alone = new double[bands];
    doubt = new double[bands];
    applied = new double[bands];
    for (int b = 0; b < bands; b++) {
      measure(slots, b);
    }
    double differ = differ();
    double sum = 0;
    double weights = 0;
    for (int b = 0; b < bands; b++) {
      if (Double.isFinite(doubt[b])) {
        double w = 1 / (doubt[b] * doubt[b] + differ);
        sum += w * alone[b];
        weights += w;
      }
    }
    all = weights == 0 ? 0 : sum / weights;
    allDoubt = weights == 0 ? Double.POSITIVE_INFINITY : 1 / Math.sqrt(weights);
    for (int b = 0; b < bands; b++) {
      double trust = Double.isFinite(doubt[b]) ? differ / (differ + doubt[b] * doubt[b]) : 0;
      double db = all + trust * (alone[b] - all);
      applied[b] = Math.max(-MOST_DB, Math.min(MOST_DB, db));
    }
  }

  /**
   * Variance of the octaves' true balances, dB squared, from how much more than their doubts they
   * differ (R. DerSimonian and N. Laird, Controlled Clinical Trials 7, 1986).
   */
  private double differ() {
    double w1 = 0;
    double w2 = 0;
    double mean = 0;
    int n = 0;
    for (int b = 0; b < alone.length; b++) {
      if (Double.isFinite(doubt[b])) {
        double w = 1 / (doubt[b] * doubt[b]);
        w1 += w;
        w2 += w * w;
        mean += w * alone[b];
        n++;
      }
    }
    double misfit = 0;
    for (int b = 0; b < alone.length; b++) {
      if (Double.isFinite(doubt[b])) {
        double off = (alone[b] - mean / w1) / doubt[b];
        misfit += off * off;
      }
    }
    double freedom = w1 - w2 / w1;
    double variance = n > 1 && freedom > 0 ? Math.max(0, (misfit - (n - 1)) / freedom) : 0;
    return variance + LEAST_DIFFER_DB * LEAST_DIFFER_DB;
  }

  private void measure(WallSlots slots, int band) {
    double[] left = slope(slots, band, WallSlots.LEFT);
    double[] right = slope(slots, band, WallSlots.RIGHT);
    if (left == null || right == null) {
      doubt[band] = Double.POSITIVE_INFINITY;
      return;
    }
    // wall powers on shared power: H and 1 / H of the amplitude ratio H
    alone[band] = DB_OF_LOG * (StrictMath.log(right[0]) - StrictMath.log(left[0]));
    double a = left[1] / left[0];
    double b = right[1] / right[0];
    doubt[band] = Math.max(LEAST_DOUBT_DB, DB_OF_LOG * Math.sqrt(a * a + b * b));
    if (Math.abs(alone[band]) > MOST_DB) {
      doubt[band] = Double.POSITIVE_INFINITY;
      alone[band] = 0;
    }
  }

  /** Slope of a wall's power on the shared power and its standard deviation; null if not told. */
  private static double[] slope(WallSlots slots, int band, int kind) {
    int n = slots.count();
    if (n < LEAST_SLOTS) {
      return null;
    }
    double[] residual = new double[n];
    double[] sorted = new double[n];
    double intercept = 0;
    double slope = 0;
    double scale = Double.POSITIVE_INFINITY;
    double variance = 0;
    for (int round = 0; round < ROUNDS; round++) {
      double sw = 0;
      double sx = 0;
      double sy = 0;
      double sxx = 0;
      double sxy = 0;
      double left = 0;
      double counted = 0;
      for (int s = 0; s < n; s++) {
        double size = slots.at(s, band, WallSlots.LEFT) + slots.at(s, band, WallSlots.RIGHT);
        if (!(size > 0)) {
          continue;
        }
        double far = Math.abs(residual[s]) / scale;
        double share = far > FAR ? FAR / far : 1;
        // scatter of a power grows with it
        double w = share / size;
        double x = slots.at(s, band, WallSlots.SHARED);
        double y = slots.at(s, band, kind);
        sw += w;
        sx += w * x;
        sy += w * y;
        sxx += w * x * x;
        sxy += w * x * y;
        double r = Math.min(far, FAR) * (Double.isFinite(scale) ? scale : 0);
        left += r * r;
        counted++;
      }
      double det = sw * sxx - sx * sx;
      if (counted < LEAST_SLOTS || !(det > 1e-9 * sw * sxx)) {
        return null;
      }
      slope = (sw * sxy - sx * sy) / det;
      intercept = (sxx * sy - sx * sxy) / det;
      variance = left / (counted - 2) * sw / det;
      int used = 0;
      double sizes = 0;
      for (int s = 0; s < n; s++) {
        double size = slots.at(s, band, WallSlots.LEFT) + slots.at(s, band, WallSlots.RIGHT);
        residual[s] = 0;
        if (size > 0) {
          double off =
              slots.at(s, band, kind) - intercept - slope * slots.at(s, band, WallSlots.SHARED);
          residual[s] = off / Math.sqrt(size);
          sorted[used++] = Math.abs(residual[s]);
          sizes += size;
        }
      }
      Arrays.sort(sorted, 0, used);
      // rounding alone is no scatter
      scale = Math.max(1.4826 * sorted[used / 2], 1e-9 * Math.sqrt(sizes / used));
    }
    return slope > 0 && variance >= 0 ? new double[] {slope, Math.sqrt(variance)} : null;
  }
}
