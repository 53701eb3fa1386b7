package org.groovemend.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * What all evidence says.
 *
 * @param evidence each by itself
 * @param together by inverse variance, or null if there is none or it contradicts itself
 * @param doubts sentences for people
 */
public record SpeedEstimate(
    List<SpeedEvidence> evidence, SpeedEvidence together, List<String> doubts) {

  /** Two 95 % intervals apart by more than 99 % of chance contradict one another. */
  private static final double APART = 2.576 / 1.960;

  public SpeedEstimate {
    evidence = List.copyOf(evidence);
    doubts = List.copyOf(doubts);
  }

  /**
   * Weighs evidence.
   *
   * @param evidence independent of one another
   * @param said doubts there are already
   */
  static SpeedEstimate of(List<SpeedEvidence> evidence, List<String> said) {
    List<String> doubts = new ArrayList<>(said);
    boolean agree = true;
    for (int i = 0; i < evidence.size(); i++) {
      for (int j = 0; j < i; j++) {
        SpeedEvidence a = evidence.get(j);
        SpeedEvidence b = evidence.get(i);
        double off = Math.abs(StrictMath.log(a.factor() / b.factor()));
        if (off > APART * Math.sqrt(a.half() * a.half() + b.half() * b.half())) {
          agree = false;
          doubts.add(
              String.format(
                  Locale.ROOT,
                  "%s (x %.4f) and %s (x %.4f) contradict one another: one of the assumptions is wrong, and no factor is told",
                  a.kind().words(),
                  a.factor(),
                  b.kind().words(),
                  b.factor()));
        }
      }
    }
    if (evidence.isEmpty() || !agree) {
      return new SpeedEstimate(evidence, null, doubts);
    }
    if (evidence.size() == 1) {
      return new SpeedEstimate(evidence, evidence.get(0), doubts);
    }
    double sum = 0;
    double all = 0;
    for (SpeedEvidence one : evidence) {
      double w = 1 / (one.half() * one.half());
      sum += w * StrictMath.log(one.factor());
      all += w;
    }
    return new SpeedEstimate(
        evidence,
        new SpeedEvidence(
            SpeedEvidence.Kind.TOGETHER,
            StrictMath.exp(sum / all),
            1 / Math.sqrt(all),
            "mean weighted by inverse variance"),
        doubts);
  }
}
