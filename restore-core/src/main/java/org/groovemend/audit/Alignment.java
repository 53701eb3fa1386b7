package org.groovemend.audit;

import java.util.List;

/**
 * Where the derivative lies in the original.
 *
 * @param factor how many times as fast as the original the derivative runs; exactly 1 unless
 *     another speed stands out
 * @param factorDoubt standard deviation of it, as measured; infinite if only one place tells it
 * @param partSamples what the place of the original has beyond a whole frame, derivative's frames
 * @param partDoubtSamples standard deviation
 * @param wanderSamples how far single passages leave the constant speed, largest; 0 if they do not
 * @param opposed whether what was followed is upside down
 * @param pairing what was followed
 * @param stretches in order
 * @param passages that were looked for
 * @param found of them
 */
record Alignment(
    double factor,
    double factorDoubt,
    double partSamples,
    double partDoubtSamples,
    double wanderSamples,
    boolean opposed,
    Pairing pairing,
    List<Stretch> stretches,
    int passages,
    int found) {

  private static final double STANDS_OUT = 5;
  private static final double LEAST_PART = 2e-5;

  Alignment {
    stretches = List.copyOf(stretches);
  }

  /** The part of a frame if it stands out, else 0. */
  double part() {
    return Math.abs(partSamples) > STANDS_OUT * partDoubtSamples
            && Math.abs(partSamples) > LEAST_PART
        ? partSamples
        : 0;
  }

  /**
   * Standard deviation of the place where it is least certain, at the ends.
   *
   * @param frames of the derivative
   */
  double placeDoubt(long frames) {
    double drift = factor == 1 || !Double.isFinite(factorDoubt) ? 0 : factorDoubt * frames / 2;
    double part = Double.isFinite(partDoubtSamples) ? partDoubtSamples : 0;
    return Math.sqrt(part * part + drift * drift);
  }

  /** The stretches with so many frames more of lag. */
  List<Stretch> moved(long frames) {
    return stretches.stream().map(s -> new Stretch(s.from(), s.to(), s.lag() + frames)).toList();
  }

  /**
   * A stretch without a break.
   *
   * @param from first frame of the derivative
   * @param to one past its last
   * @param lag original minus derivative, whole frames at the derivative's rate and speed
   */
  record Stretch(long from, long to, long lag) {
    long frames() {
      return to - from;
    }
  }

  /** Share of the passages that were found, 0 to 1. */
  double share() {
    return Math.min(1, (double) found / Math.max(1, passages));
  }
}
