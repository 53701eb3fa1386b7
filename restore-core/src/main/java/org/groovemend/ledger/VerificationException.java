package org.groovemend.ledger;

import java.util.List;

/** Something is not what the ledger says it is. */
public final class VerificationException extends Exception {

  private static final long serialVersionUID = 1L;

  private final transient List<Mismatch> mismatches;

  /**
   * @param sentence what failed and what to do about it, with its full stop
   * @param mismatches all that was found, up to a limit; may be empty
   */
  public VerificationException(String sentence, List<Mismatch> mismatches) {
    super(message(sentence, mismatches));
    this.mismatches = List.copyOf(mismatches);
  }

  private static String message(String sentence, List<Mismatch> mismatches) {
    return mismatches.isEmpty()
        ? sentence
        : sentence
            + " "
            + String.join("; ", mismatches.stream().map(Mismatch::toString).toList())
            + ".";
  }

  public List<Mismatch> mismatches() {
    return mismatches;
  }
}
