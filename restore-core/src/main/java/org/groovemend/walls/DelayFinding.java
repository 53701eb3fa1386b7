package org.groovemend.walls;

import java.util.List;

/**
 * How far the right wall comes behind the left.
 *
 * @param samples at the middle of the side; negative if the left is behind; 0 if not told
 * @param doubtSamples standard deviation, from bound and scatter; infinite if not told
 * @param boundSamples the Cramer-Rao bound alone
 * @param driftSamples change from the first to the last frame of the side; 0 if none stands out
 * @param opposed whether the walls move in opposite sense
 * @param passages passages that tell, in order, at most {@link DelaySearch#MOST_PASSAGES}
 */
public record DelayFinding(
    double samples,
    double doubtSamples,
    double boundSamples,
    double driftSamples,
    boolean opposed,
    List<PassageDelay> passages) {

  public DelayFinding {
    passages = List.copyOf(passages);
  }

  static DelayFinding none() {
    return new DelayFinding(
        0, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, 0, false, List.of());
  }

  /** The delay at a frame, in samples; 0 where what was measured is no more than its doubt. */
  double at(double frame, long sideFrames) {
    return middle() + driftSamples * (frame / sideFrames - 0.5);
  }

  /** Largest delay that is taken out anywhere, in samples. */
  public double largest() {
    return Math.abs(middle()) + Math.abs(driftSamples) / 2;
  }

  private double middle() {
    return Math.abs(samples) < 3 * doubtSamples ? 0 : samples;
  }
}
