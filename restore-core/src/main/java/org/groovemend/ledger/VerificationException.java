package org.groovemend.ledger;

import java.util.List;

/** Something is not what the ledger says it is. */
public final class VerificationException extends Exception {

  private static final long serialVersionUID = 1L;

  private final transient List<Mismatch> mismatches;

  /**
   * @param sentence what failed and what to do about it
   * @param mismatches all that was found, up to a limit
   */
  public VerificationException(String sentence, List<Mismatch> mismatches) {
    super(sentence + " " + String.join("; ", mismatches.stream().map(Mismatch::toString).toList()) + ".");
    this.mismatches = List.copyOf(mismatches);
  }

  public List<Mismatch> mismatches() {
    return mismatches;
  }
}
