package org.groovemend.hum;

/**
 * Phase of a family's fundamental over the side: cycles at evenly spaced knots, a cubic with
 * continuous frequency between them (E. Catmull, R. Rom, 1974). Two numbers a knot, every half
 * second.
 *
 * @param cycles at knot j, two or more
 * @param hop distance of the knots in the unit of time that {@link #at} is asked in
 */
record PhaseTrack(double[] cycles, double hop) {

  /** Cycles per hop at a knot. */
  double slope(int j) {
    int last = cycles.length - 1;
    if (j == 0) {
      return cycles[1] - cycles[0];
    }
    return j == last ? cycles[last] - cycles[last - 1] : (cycles[j + 1] - cycles[j - 1]) / 2;
  }

  /** Cycles at a time; beyond the ends the frequency stays. */
  double at(double time) {
    double u = time / hop;
    int j = (int) Math.max(0, Math.min(cycles.length - 2, Math.floor(u)));
    double t = u - j;
    if (t < 0 || t > 1) {
      int end = t < 0 ? j : j + 1;
      return cycles[end] + slope(end) * (u - end);
    }
    double d = cycles[j + 1] - cycles[j];
    double a = slope(j);
    double b = slope(j + 1);
    return cycles[j] + t * (a + t * ((3 * d - 2 * a - b) + t * (a + b - 2 * d)));
  }

  /** The same path with time in another unit: {@code factor} new units to one old. */
  PhaseTrack scaled(double factor) {
    return new PhaseTrack(cycles, hop * factor);
  }
}
