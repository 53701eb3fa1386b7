package org.groovemend.click;

import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.playback.RecursiveFilter;

/** Where clicks are short: the signal itself, or the signal with the playback curve undone. */
final class RepairDomain {
  /** 20 Hz, in microseconds. */
  private static final double LONGEST_SHELF = 7957.7;

  private static final double LEAST_OVER_TURNOVER = 2;

  private final RecursiveFilter inverse;
  private final RecursiveFilter forward;

  private RepairDomain(RecursiveFilter inverse, RecursiveFilter forward) {
    this.inverse = inverse;
    this.forward = forward;
  }

  static RepairDomain of(CaptureCurve captured, int sampleRateHz) {
    if (!captured.isCurved()) {
      return new RepairDomain(null, null);
    }
    PlaybackCurve curve = captured.curve();
    double high = curve.highPassMicroseconds();
    RecursiveFilter inverse = filter(curve, 0, sampleRateHz).inverse();
    return new RepairDomain(inverse, filter(curve, high, sampleRateHz).forward());
  }

  /**
   * The curve but for what lies below the sound: a bass that rises without end, or nearly so, would
   * give a click a tail of seconds. A high-pass undone would remember as long: it is left where
   * clicks are sought, which hardly droop in their milliseconds, but is in what is taken away.
   */
  private static PlaybackFilter filter(PlaybackCurve curve, double highPass, int rate) {
    double turnover = curve.turnoverMicroseconds();
    double shelf = 0;
    if (turnover > 0) {
      double most = Math.max(LONGEST_SHELF, LEAST_OVER_TURNOVER * turnover);
      shelf = curve.endless() ? most : Math.min(most, curve.shelfMicroseconds());
    }
    return PlaybackFilter.design(
        new PlaybackCurve(highPass, shelf, turnover, curve.trebleMicroseconds()), rate);
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
