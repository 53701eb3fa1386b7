package org.groovemend.fixity;

import java.util.List;

/**
 * What came of a round.
 *
 * @param checked things that vouch, and files of bags, looked at now
 * @param before of the same round, looked at by runs before this one
 * @param files read
 * @param bytes read
 * @param companions files that belong to a ledger but that no digest vouches for
 * @param findings at most {@link FixityRun#MOST_FINDINGS}
 * @param found findings in all
 * @param faults of these, faults
 * @param seconds by the clock
 * @param interrupted whether it was stopped by a person
 */
public record FixityOutcome(
    long checked,
    long before,
    long files,
    long bytes,
    long companions,
    List<FixityFinding> findings,
    long found,
    long faults,
    double seconds,
    boolean interrupted) {
  public FixityOutcome {
    findings = List.copyOf(findings);
  }

  /** Whether all that was vouched for is there and unchanged. */
  public boolean holds() {
    return faults == 0 && !interrupted;
  }
}
