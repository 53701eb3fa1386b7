package org.groovemend.job.account;

import java.util.List;
import org.groovemend.ledger.Check;
import org.groovemend.lineage.Lineage;

/** What the account says of the way from the first treatment to a copy with repairs taken back. */
final class AccountDescent {

  private AccountDescent() {}

  /** One sentence if the whole descent was checked and holds, else none. */
  static List<String> proved(List<Check> checks) {
    List<Check> descent = descent(checks);
    boolean holds =
        !descent.isEmpty()
            && descent.stream().allMatch(check -> check.outcome() == Check.Outcome.HOLDS);
    return holds
        ? List.of(
            "That this copy is the earlier one without the repairs that were taken back, and nothing else, was checked"
                + " from ledger to ledger when this page was made.")
        : List.of();
  }

  /** What of the descent could not be checked, in plain words. */
  static List<String> doubts(List<Check> checks) {
    boolean open =
        descent(checks).stream().anyMatch(check -> check.outcome() == Check.Outcome.NOT_CHECKED);
    return open
        ? List.of(
            "Which repairs of the earlier copy were taken back could not be checked in full: its ledger, or the decisions,"
                + " were not at hand when this page was made.")
        : List.of();
  }

  private static List<Check> descent(List<Check> checks) {
    return checks.stream().filter(check -> Lineage.isAbout(check.name())).toList();
  }
}
