package org.groovemend.lineage;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.EditReader;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.Verifier;

/**
 * Compares the edits of a ledger with those of its parent: they must be the parent's, in order,
 * without those that were taken back. Both are read once, side by side.
 */
final class KeptEdits {

  private final String parentName;
  private final String childName;
  private final List<Mismatch> mismatches = new ArrayList<>();
  private long mismatchCount;
  private long undone;

  private KeptEdits(Ledger parent, Ledger child) {
    parentName = FilePath.name(parent.path());
    childName = FilePath.name(child.path());
  }

  /**
   * Compares.
   *
   * @param undoes which edits of the parent were taken back; null if that is not known, and then
   *     any may have been
   */
  static KeptEdits compare(Ledger parent, Ledger child, Predicate<LedgerEdit> undoes)
      throws IOException {
    KeptEdits kept = new KeptEdits(parent, child);
    try (EditReader before = parent.edits();
        EditReader after = child.edits()) {
      kept.compare(before, after, undoes);
    }
    return kept;
  }

  /** Edits of the parent that the child does not hold. */
  long undone() {
    return undone;
  }

  /** What differs, the first {@link Verifier#LIMIT}. */
  List<Mismatch> mismatches() {
    return mismatches;
  }

  long mismatchCount() {
    return mismatchCount;
  }

  private void compare(EditReader before, EditReader after, Predicate<LedgerEdit> undoes)
      throws IOException {
    LedgerEdit child = after.next();
    for (LedgerEdit parent = before.next(); parent != null; parent = before.next()) {
      while (child != null && standsBefore(child, parent)) {
        extra(child, "no such edit in " + parentName);
        child = after.next();
      }
      boolean there = child != null && same(child, parent);
      boolean undo = undoes == null ? !there : undoes.test(parent);
      if (undo) {
        undone++;
      }
      if (there && undo) {
        extra(child, "taken back by the decisions");
      } else if (!there && !undo) {
        add(
            new Mismatch(
                "edit " + parent.number() + " of " + parentName, "kept", "not in " + childName));
      }
      if (there) {
        child = after.next();
      }
    }
    for (; child != null; child = after.next()) {
      extra(child, "no such edit in " + parentName);
    }
  }

  private void extra(LedgerEdit edit, String expected) {
    add(new Mismatch("edit " + edit.number() + " of " + childName, expected, "there"));
  }

  private void add(Mismatch mismatch) {
    mismatchCount++;
    if (mismatches.size() < Verifier.LIMIT) {
      mismatches.add(mismatch);
    }
  }

  private static boolean standsBefore(LedgerEdit a, LedgerEdit b) {
    return a.start() < b.start() || a.start() == b.start() && a.channel() < b.channel();
  }

  /** All but the number, and what the whole treatment left there in the end. */
  private static boolean same(LedgerEdit child, LedgerEdit parent) {
    return child.withNumberAndAfter(parent.number(), parent.after()).equals(parent);
  }
}
