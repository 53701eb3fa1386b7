package org.groovemend.ledger;

import java.util.ArrayList;
import java.util.List;

/** Gathers mismatches, keeps the first and counts all. */
final class MismatchList {

  private final List<Mismatch> kept = new ArrayList<>();
  private long count;

  void add(Mismatch mismatch) {
    count++;
    if (kept.size() < Verifier.LIMIT) {
      kept.add(mismatch);
    }
  }

  Check check(String name, String holds, String fails) {
    return count == 0
        ? Check.holds(name, "", holds)
        : new Check(name, Check.Outcome.FAILS, "", "", fails, List.copyOf(kept), count);
  }
}
