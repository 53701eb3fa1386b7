package org.groovemend.job.proof;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.file.FileRebuilder;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.Verifier;
import org.groovemend.lineage.Lineage;

/** Recomputes every hash of a ledger and its files and says what holds. */
public final class Verify {

  private Verify() {}

  /**
   * Checks a ledger and its files; reads only.
   *
   * @param ledger the ledger file
   * @param given files that do not lie beside the ledger; nulls are looked for there
   * @return every check, in a fixed order; damage is a check that fails, not an exception
   */
  public static List<Check> run(Path ledger, LedgerFiles given) throws IOException {
    return run(ledger, given, List.of());
  }

  /**
   * The same.
   *
   * @param forebears ledgers, or folders of ledgers, that this one descends from and that do not
   *     lie beside it
   */
  public static List<Check> run(Path ledger, LedgerFiles given, List<Path> forebears)
      throws IOException {
    List<Check> checks =
        new ArrayList<>(new Verifier(SideFiles::open, FileRebuilder::new).verify(ledger, given));
    if (checks.get(0).outcome() == Check.Outcome.HOLDS) {
      checks.addAll(Lineage.check(Ledger.open(ledger), forebears));
    }
    return checks;
  }

  /** True if a check failed. */
  public static boolean failed(List<Check> checks) {
    return checks.stream().anyMatch(check -> check.outcome() == Check.Outcome.FAILS);
  }
}
