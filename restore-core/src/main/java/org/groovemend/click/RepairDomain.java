package org.groovemend.click;

import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.playback.RecursiveFilter;
import org.groovemend.stage.CaptureCurve;

/** Where clicks are short: the signal itself, or the signal with the playback curve undone. */
final class RepairDomain {
  private final RecursiveFilter inverse;
  private final RecursiveFilter forward;

  private RepairDomain(RecursiveFilter inverse, RecursiveFilter forward) {
    this.inverse = inverse;
    this.forward = forward;
  }

  static RepairDomain of(CaptureCurve captured, int sampleRateHz) {
    if (captured != CaptureCurve.RIAA) {
      return new RepairDomain(null, null);
    }
    PlaybackFilter curve = PlaybackFilter.design(PlaybackCurve.MICROGROOVE, sampleRateHz);
    return new RepairDomain(curve.inverse(), curve.forward());
  }

  boolean direct() {
    return inverse == null;
  }

  /**
   * Least deviation that the rounding of the samples to steps of {@code quantum} leaves in a
   * prediction residual: the geometric mean of its spectrum, which for a minimum-phase filter is
   * its leading coefficient (Kolmogorov and Szegoe).
   */
  double floor(double quantum) {
    double lead = inverse == null ? 1 : Math.abs(inverse.numerator()[0]);
    return lead * Math.max(quantum, 0x1p-32) * 0.5;
  }

  /** Undoes the curve for [from, to), beginning at rest {@code lead} samples earlier. */
  void undo(double[] x, int from, int to, int lead, double[] scratch, double[] out, int outAt) {
    if (inverse == null) {
      System.arraycopy(x, from, out, outAt, to - from);
      return;
    }
    inverse.fromRest(x, scratch, from - lead, to);
    System.arraycopy(scratch, from, out, outAt, to - from);
  }

  RecursiveFilter forward() {
    return forward;
  }
}
