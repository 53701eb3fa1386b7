package org.groovemend.thump;

import java.util.Arrays;
import org.groovemend.signal.linear.BandedCholesky;

/**
 * What a ring has beside its {@link ThumpShape}: separated from the music as the less predictable
 * of two autoregressive sources is (Godsill and Rayner 1998). The ring's own model is the resonator
 * of its shape, driven by noise that dies away with it; how strong that noise is, the marginal
 * likelihood tells. One instance per thread.
 */
final class Remainder {
  private static final int ORDER = ThumpGeometry.ORDER;

  /** Tried strengths of the noise, in shares of what the resonator itself does in a sample. */
  private static final double[] STRENGTHS = {0.03, 0.1, 0.3, 1};

  /** Log likelihood that a remainder must bring; less is no evidence. */
  private static final double LEAST_GAIN = 3;

  /** Least noise at the end of the ring, as a share of that at its beginning. */
  private static final double FLOOR = 1e-5;

  private final MusicModel model;
  private final int length;
  private final double spacing;
  private final BandedCholesky cholesky = new BandedCholesky();
  private final double[] remains;
  private final double[] rhs;
  private final double[] forward;
  private final double[] c1;
  private final double[] q;
  private final double[] correlation = new double[ORDER + 1];

  Remainder(ThumpGeometry g, MusicModel model) {
    this.model = model;
    this.length = g.judged() - ORDER - PlaceData.EARLY;
    this.spacing = 1 / g.perSecond();
    remains = new double[2 * ORDER + PlaceData.EARLY + g.judged()];
    rhs = new double[length];
    forward = new double[length];
    c1 = new double[length];
    q = new double[length];
  }

  /** Samples of a remainder. */
  int length() {
    return length;
  }

  /**
   * Finds the remainder along an axis.
   *
   * @param size amplitude of the ring along this axis
   * @param start instant after the reference at which index 0 of the result lies
   * @param out receives {@link #length()} samples, all 0 if there is no evidence
   */
  void find(ThumpFit fit, int axis, double size, int start, double[] out) {
    Arrays.fill(out, 0, length, 0);
    if (!model.active(axis) || !(size > 0)) {
      return;
    }
    fit.remains(axis, remains);
    double scale = 1 / model.deviation(axis);
    double[] a = model.coefficients(axis);
    int at = PlaceData.REFERENCE + start;
    for (int i = 0; i < length; i++) {
      double sum = 0;
      for (int k = 0; k <= ORDER && at + i + k < remains.length; k++) {
        sum += a[k] * remains[at + i + k];
      }
      rhs[i] = sum * scale;
    }
    for (int l = 0; l <= ORDER; l++) {
      double sum = 0;
      for (int k = 0; k + l <= ORDER; k++) {
        sum += a[k] * a[k + l];
      }
      correlation[l] = sum * scale * scale;
    }
    double best = LEAST_GAIN;
    double chosen = 0;
    for (double strength : STRENGTHS) {
      double gain = factor(fit.shape(), size * strength);
      if (gain > best) {
        best = gain;
        chosen = strength;
      }
    }
    if (chosen > 0) {
      factor(fit.shape(), size * chosen);
      System.arraycopy(rhs, 0, out, 0, length);
      cholesky.solve(out);
    }
  }

  /** Log of the marginal likelihood against no remainder; NaN if the system cannot be solved. */
  private double factor(ThumpShape s, double size) {
    double radius = StrictMath.exp(-spacing / s.decaySeconds());
    double first = 0;
    double logarithms = 0;
    cholesky.reset(length, ORDER);
    for (int i = 0; i < length; i++) {
      double t = i * spacing;
      double turn = 2 * Math.PI * s.frequency(t) * spacing;
      c1[i] = -2 * radius * StrictMath.cos(turn);
      double noise = size * turn * StrictMath.exp(-t / s.decaySeconds());
      q[i] = noise * noise * spacing / s.decaySeconds();
      first = Math.max(first, q[i]);
      q[i] = Math.max(q[i], FLOOR * first);
      logarithms -= StrictMath.log(q[i]);
    }
    double c2 = radius * radius;
    for (int j = 0; j < length; j++) {
      double next = j + 1 < length ? 1 / q[j + 1] : 0;
      double later = j + 2 < length ? 1 / q[j + 2] : 0;
      double n1 = j + 1 < length ? c1[j + 1] : 0;
      double n2 = j + 2 < length ? c1[j + 2] : 0;
      cholesky.set(j, j, correlation[0] + 1 / q[j] + n1 * n1 * next + c2 * c2 * later);
      for (int l = 1; l <= ORDER && j + l < length; l++) {
        double prior = l == 1 ? n1 * next + n2 * c2 * later : l == 2 ? c2 * later : 0;
        cholesky.set(j + l, j, correlation[l] + prior);
      }
    }
    if (!cholesky.factor()) {
      return Double.NaN;
    }
    System.arraycopy(rhs, 0, forward, 0, length);
    cholesky.forward(forward);
    double gain = 0.5 * logarithms;
    for (int i = 0; i < length; i++) {
      gain += 0.5 * forward[i] * forward[i] - StrictMath.log(cholesky.pivot(i));
    }
    return gain;
  }
}
