package org.groovemend.decisions;

import java.util.Objects;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.Ledger;

/**
 * The ledger that decisions are about.
 *
 * @param name file name without folder
 * @param seal stands for its content
 * @param edits how many it holds
 */
public record LedgerName(String name, String seal, long edits) {

  public LedgerName {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(seal, "seal");
  }

  public static LedgerName of(Ledger ledger) {
    return new LedgerName(FilePath.name(ledger.path()), ledger.seal(), ledger.totals().edits());
  }
}
