package org.groovemend.evaluate;

import java.util.List;

/**
 * One damaged copy and what became of it.
 *
 * @param sound name
 * @param scenario what was done to it
 * @param seed 1 or more
 * @param score with the treatment as asked for
 * @param expectedFalsePerMinute false repairs that the ledger of the restored copy foretells
 * @param sweep counts by margin of the evidence over its threshold, the least margin first; from a
 *     second restoration that was let repair nearly anything; empty where nothing is sought
 */
public record Trial(
    String sound,
    Scenario scenario,
    int seed,
    Score score,
    double expectedFalsePerMinute,
    List<SweepPoint> sweep) {
  public Trial {
    sweep = List.copyOf(sweep);
  }

  /**
   * With only the repairs whose evidence stands so far above the permissive threshold.
   *
   * @param margin natural logarithm of odds
   * @param prominent damaged ranges to be found
   * @param found of them
   * @param repairs kept
   * @param falseRepairs of them
   */
  public record SweepPoint(
      double margin, int prominent, int found, int repairs, int falseRepairs) {}
}
