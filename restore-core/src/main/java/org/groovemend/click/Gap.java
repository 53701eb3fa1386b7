package org.groovemend.click;

import java.util.ArrayList;
import java.util.List;

/**
 * A place to be filled: one or several overlapping accepted candidates of one channel.
 *
 * @param start first frame
 * @param end one past the last
 * @param places the candidates, at least one
 * @param threshold what its log odds had to exceed
 * @param fill samples from the start on as last filled, which may reach past the end; null if not
 *     yet filled
 */
record Gap(long start, long end, List<Candidate> places, double threshold, double[] fill) {
  int frames() {
    return (int) (end - start);
  }

  Candidate strongest() {
    Candidate best = places.get(0);
    for (Candidate k : places) {
      best = k.logOdds() > best.logOdds() ? k : best;
    }
    return best;
  }

  /** Covers both; their places together. */
  Gap with(Gap other) {
    List<Candidate> all = new ArrayList<>(places);
    all.addAll(other.places);
    return new Gap(
        Math.min(start, other.start),
        Math.max(end, other.end),
        all,
        other.statistic() > statistic() ? other.threshold : threshold,
        null);
  }

  Gap filled(double[] newFill) {
    return new Gap(start, end, places, threshold, newFill);
  }

  /** End of the gap or of its fill, whichever is later. */
  long filledTo() {
    return fill == null ? end : Math.max(end, start + fill.length);
  }

  double statistic() {
    return strongest().logOdds();
  }
}
