package org.groovemend.walls;

import java.util.List;

/** A constant delay, or a straight line where the passages ask for one. */
final class DelayDrift {
  /** A pivoted arm turns against the groove; less than this over a side is not worth following. */
  private static final double LEAST_DRIFT_SAMPLES = 0.02;

  private static final double STANDS_OUT = 5;
  private static final double FAR = 3;
  private static final int ROUNDS = 8;

  /** A line is fitted to no fewer. */
  private static final int LEAST_PASSAGES = 8;

  private DelayDrift() {}

  /**
   * Fits constant and line with weights, passages that lie far off counting less (P. Huber, Annals
   * of Mathematical Statistics 35, 1964).
   *
   * @param whole delay of the whole side
   */
  static DelayFinding fit(
      double whole, double bound, boolean opposed, List<PassageDelay> told, double seconds) {
    int n = told.size();
    if (n < LEAST_PASSAGES) {
      double spread = Math.max(1, Math.sqrt(misfit(told, whole)));
      return new DelayFinding(whole, bound * spread, bound, 0, opposed, told);
    }
    double[] line = {whole, 0};
    double scale = 1;
    double[] sums = new double[5];
    for (int round = 0; round < ROUNDS; round++) {
      java.util.Arrays.fill(sums, 0);
      double misfit = 0;
      double counted = 0;
      for (PassageDelay p : told) {
        double t = p.seconds() / seconds - 0.5;
        double off = (p.samples() - line[0] - line[1] * t) / p.doubtSamples();
        double far = Math.abs(off) / scale;
        double share = far > FAR ? FAR / far : 1;
        double w = share / (p.doubtSamples() * p.doubtSamples());
        sums[0] += w;
        sums[1] += w * t;
        sums[2] += w * t * t;
        sums[3] += w * p.samples();
        sums[4] += w * t * p.samples();
        misfit += Math.min(off * off, FAR * FAR * scale * scale);
        counted++;
      }
      double det = sums[0] * sums[2] - sums[1] * sums[1];
      if (!(det > 0)) {
        break;
      }
      line[0] = (sums[2] * sums[3] - sums[1] * sums[4]) / det;
      line[1] = (sums[0] * sums[4] - sums[1] * sums[3]) / det;
      scale = Math.max(1, Math.sqrt(misfit / Math.max(1, counted - 2)));
    }
    double det = sums[0] * sums[2] - sums[1] * sums[1];
    double slopeDoubt = det > 0 ? scale * Math.sqrt(sums[0] / det) : Double.POSITIVE_INFINITY;
    boolean drifts =
        Math.abs(line[1]) > STANDS_OUT * slopeDoubt && Math.abs(line[1]) > LEAST_DRIFT_SAMPLES;
    double constant = sums[3] / sums[0];
    return new DelayFinding(
        drifts ? line[0] : constant,
        scale * (drifts ? Math.sqrt(sums[2] / det) : 1 / Math.sqrt(sums[0])),
        bound,
        drifts ? line[1] : 0,
        opposed,
        told);
  }

  private static double misfit(List<PassageDelay> told, double whole) {
    double sum = 0;
    for (PassageDelay p : told) {
      double off = (p.samples() - whole) / p.doubtSamples();
      sum += off * off / told.size();
    }
    return sum;
  }
}
