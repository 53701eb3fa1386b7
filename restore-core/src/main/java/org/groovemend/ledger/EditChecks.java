package org.groovemend.ledger;

import java.io.IOException;
import org.groovemend.audio.WordSource;

/**
 * Checks edit by edit: stored words, and ranges in the files. That edits lie inside the side, in
 * order, the reader checks.
 */
final class EditChecks {

  private EditChecks() {}

  /** Every edit's stored words have the digest it holds for them. */
  static Check storedWords(Ledger ledger) throws IOException {
    MismatchList mismatches = new MismatchList();
    Sha256 sha256 = new Sha256();
    ledger.forEachEdit(
        edit -> {
          String found = sha256.hex(edit.original(), 0, edit.original().length);
          if (!found.equals(edit.before())) {
            mismatches.add(new Mismatch(edit.place(), edit.before(), found));
          }
        });
    return mismatches.check(
        Verifier.EDIT_WORDS,
        "Every edit keeps the original's words that it says it keeps.",
        "Some edits keep other words than they say.");
  }

  /** Every edit's range in the original has the digest before. */
  static Check rangesOfOriginal(Ledger ledger, WordSource original) throws IOException {
    return ranges(ledger, original, true)
        .check(
            Verifier.EDIT_ORIGINAL,
            "Every edited range is in the original file as the ledger holds it.",
            "Some edited ranges are not in the original file as the ledger holds them.");
  }

  /** Every edit's range in the restored file has the digest after. */
  static Check rangesOfRestored(Ledger ledger, WordSource restored) throws IOException {
    return ranges(ledger, restored, false)
        .check(
            Verifier.EDIT_RESTORED,
            "Every edited range is in the restored file as it was written.",
            "Some edited ranges are not in the restored file as they were written.");
  }

  private static MismatchList ranges(Ledger ledger, WordSource side, boolean before)
      throws IOException {
    MismatchList mismatches = new MismatchList();
    RangeDigests window = new RangeDigests(side);
    ledger.forEachEdit(
        edit -> {
          String expected = before ? edit.before() : edit.after();
          String found = window.digest(edit.channel(), edit.start(), edit.end());
          if (!found.equals(expected)) {
            mismatches.add(new Mismatch(edit.place(), expected, found));
          }
        });
    return mismatches;
  }
}
