package org.groovemend.ledger;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.SideReader;

/**
 * Recomputes every digest of a ledger and says what holds and what does not. Reads only.
 *
 * <p>The checks, always all and in this order: {@link #LEDGER}, {@link #ORIGINAL_FILE}, {@link
 * #ORIGINAL_SAMPLES}, {@link #RESTORED_FILE}, {@link #RESTORED_SAMPLES}, {@link #REMOVED_FILE},
 * {@link #REMOVED_SAMPLES}, {@link #EDIT_WORDS}, {@link #EDIT_ORIGINAL}, {@link #EDIT_RESTORED},
 * {@link #OUTSIDE_EDITS}, {@link #CHANGED_SAMPLES}, {@link #REVERSAL}. A check that needs a file
 * that is missing or unreadable is not made and says so; a file whose samples differ is still
 * compared range by range, so that the place is named.
 */
public final class Verifier {

  /** Most mismatches that one check lists; all are counted. */
  public static final int LIMIT = 100;

  /** Chain, seal, order and form of the ledger's lines. */
  public static final String LEDGER = "ledger";

  /** Length and digest of the original file. */
  public static final String ORIGINAL_FILE = "original-file";

  /** Shape and digest of its samples. */
  public static final String ORIGINAL_SAMPLES = "original-samples";

  public static final String RESTORED_FILE = "restored-file";
  public static final String RESTORED_SAMPLES = "restored-samples";
  public static final String REMOVED_FILE = "removed-file";
  public static final String REMOVED_SAMPLES = "removed-samples";

  /** The original words kept in each edit have the digest that the edit gives for them. */
  public static final String EDIT_WORDS = "edit-words";

  /** The original file holds those words in each edit's range. */
  public static final String EDIT_ORIGINAL = "edit-ranges-of-original";

  /** The restored file holds in each edit's range what was written there. */
  public static final String EDIT_RESTORED = "edit-ranges-of-restored";

  /** Outside the edits, original and restored are the same; only where repairs alone ran. */
  public static final String OUTSIDE_EDITS = "outside-edits";

  /** As many words differ as the totals say. */
  public static final String CHANGED_SAMPLES = "changed-samples";

  /** The original file can be rebuilt byte for byte, tried without writing. */
  public static final String REVERSAL = "reversal";

  private static final List<String> ALL =
      List.of(
          LEDGER,
          ORIGINAL_FILE,
          ORIGINAL_SAMPLES,
          RESTORED_FILE,
          RESTORED_SAMPLES,
          REMOVED_FILE,
          REMOVED_SAMPLES,
          EDIT_WORDS,
          EDIT_ORIGINAL,
          EDIT_RESTORED,
          OUTSIDE_EDITS,
          CHANGED_SAMPLES,
          REVERSAL);

  private final SideOpener opener;
  private final Reversal reversal;

  public Verifier(SideOpener opener, RebuilderFactory rebuilders) {
    this.opener = opener;
    this.reversal = new Reversal(rebuilders);
  }

  /**
   * Checks a ledger and the files that lie beside it under the names it holds.
   *
   * @param given files that lie elsewhere; its nulls are looked for beside the ledger
   * @throws IOException if the ledger cannot be read at all, or is of a later format; damage is no
   *     exception but a check that fails
   */
  public List<Check> verify(Path ledger, LedgerFiles given) throws IOException {
    Ledger checked;
    try {
      checked = Ledger.open(ledger);
    } catch (LedgerDamagedException e) {
      List<Check> checks = new ArrayList<>();
      checks.add(
          Check.fails(
              LEDGER,
              "every line as it was written",
              e.damage().words() + " at line " + e.line(),
              e.getMessage()));
      for (String name : ALL.subList(1, ALL.size())) {
        checks.add(
            Check.notChecked(name, "The ledger is damaged; nothing in it can be relied on."));
      }
      return checks;
    }
    LedgerFiles files = given.or(LedgerFiles.beside(checked));
    try (CheckedSide original =
            new CheckedSide("original", checked.header().original(), files.original());
        CheckedSide restored =
            new CheckedSide("restored", checked.totals().restored(), files.restored());
        CheckedSide removed =
            new CheckedSide("removed", checked.totals().removed(), files.removed())) {
      List<Check> checks = new ArrayList<>();
      checks.add(
          Check.holds(
              LEDGER,
              checked.seal(),
              "All " + checked.records() + " lines of the ledger are as they were written."));
      original.check(opener, ORIGINAL_FILE, ORIGINAL_SAMPLES, checks);
      restored.check(opener, RESTORED_FILE, RESTORED_SAMPLES, checks);
      removed.check(opener, REMOVED_FILE, REMOVED_SAMPLES, checks);
      checkEdits(checked, original.reader(), restored.reader(), checks);
      compare(checked, original.reader(), restored.reader(), checks);
      checks.add(tryReversal(checked, restored, removed));
      return checks;
    }
  }

  private static void checkEdits(
      Ledger ledger, SideReader original, SideReader restored, List<Check> checks)
      throws IOException {
    checks.add(EditChecks.storedWords(ledger));
    checks.add(
        original == null
            ? Check.notChecked(EDIT_ORIGINAL, "The original file is not at hand.")
            : EditChecks.rangesOfOriginal(ledger, original));
    checks.add(
        restored == null
            ? Check.notChecked(EDIT_RESTORED, "The restored file is not at hand.")
            : EditChecks.rangesOfRestored(ledger, restored));
  }

  private static void compare(
      Ledger ledger, SideReader original, SideReader restored, List<Check> checks)
      throws IOException {
    if (original == null || restored == null) {
      String why = "Original and restored file are not both at hand.";
      checks.add(Check.notChecked(OUTSIDE_EDITS, why));
      checks.add(Check.notChecked(CHANGED_SAMPLES, why));
      return;
    }
    SideComparison comparison = SideComparison.of(ledger, original, restored);
    checks.add(
        ledger.header().wholeSignal()
            ? Check.notChecked(OUTSIDE_EDITS, "Does not apply: a stage could change any sample.")
            : comparison
                .outside()
                .check(
                    OUTSIDE_EDITS,
                    "Outside the edits, every sample is the original's.",
                    "Samples outside the edits differ from the original."));
    String expected = String.valueOf(ledger.totals().changedSamples());
    String found = String.valueOf(comparison.changed());
    checks.add(
        expected.equals(found)
            ? Check.holds(
                CHANGED_SAMPLES, expected, "As many samples were changed as the ledger says.")
            : Check.fails(
                CHANGED_SAMPLES,
                expected,
                found,
                "Another number of samples was changed than the ledger says."));
  }

  private Check tryReversal(Ledger ledger, CheckedSide restored, CheckedSide removed) {
    boolean whole = ledger.header().wholeSignal();
    if (!restored.samplesHold() || whole && !removed.samplesHold()) {
      return Check.notChecked(
          REVERSAL,
          "The original can only be rebuilt from the files that were written together with the ledger, unaltered.");
    }
    FileFacts original = ledger.header().original();
    try {
      CountingDigestStream written =
          reversal.rebuild(
              ledger, restored.reader(), removed.reader(), OutputStream.nullOutputStream());
      String found = written.hex();
      Mismatch mismatch = Reversal.compare(original, written.bytes(), found);
      return mismatch == null
          ? Check.holds(
              REVERSAL,
              original.sha256(),
              "The original file can be rebuilt from these files, byte for byte.")
          : Check.fails(
              REVERSAL,
              mismatch.expected(),
              mismatch.found(),
              "What can be rebuilt is not the original file.");
    } catch (IOException e) {
      return Check.fails(
          REVERSAL, original.sha256(), "", "The original cannot be rebuilt: " + e.getMessage());
    }
  }
}
