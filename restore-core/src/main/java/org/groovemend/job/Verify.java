package org.groovemend.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.file.FileRebuilder;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.Verifier;

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
    return new Verifier(SideFiles::open, FileRebuilder::new).verify(ledger, given);
  }

  /** True if a check failed. */
  public static boolean failed(List<Check> checks) {
    return checks.stream().anyMatch(check -> check.outcome() == Check.Outcome.FAILS);
  }
}
