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

  Alignment {
    stretches = List.copyOf(stretches);
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
}
