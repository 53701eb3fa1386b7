package org.groovemend.ledger;

/**
 * The ledger that a ledger descends from: of its edits some were taken back, the others are those
 * of the new ledger.
 *
 * @param ledger file name of the parent's ledger, without any folder
 * @param seal its seal, which stands for the whole of it
 * @param decisions file name of the decisions that say which edits were taken back and why, without
 *     any folder; null if there is none
 * @param decisionsSha256 SHA-256 of that file, null if there is none
 * @param edits edits of the parent
 * @param undone how many of them were taken back
 * @param undoneInAll the same together with what was taken back on the way from the first treatment
 *     to the parent
 */
public record LedgerParent(
    String ledger,
    String seal,
    String decisions,
    String decisionsSha256,
    long edits,
    long undone,
    long undoneInAll) {

  public LedgerParent {
    FileFacts.requirePlainName(ledger);
    Sha256.requireHex(seal, ledger + ": seal");
    if ((decisions == null) != (decisionsSha256 == null)) {
      throw new IllegalArgumentException("a file of decisions needs a name and a digest");
    }
    if (decisions != null) {
      FileFacts.requirePlainName(decisions);
      Sha256.requireHex(decisionsSha256, decisions + ": sha256");
    }
    if (undone < 0 || undone > edits || undoneInAll < undone) {
      throw new IllegalArgumentException(
          undone
              + " edits taken back of "
              + edits
              + ", "
              + undoneInAll
              + " in all: that cannot be");
    }
  }
}
