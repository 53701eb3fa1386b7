package org.groovemend.job.undo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.groovemend.audio.FilePath;
import org.groovemend.job.restore.Bookkeeping;
import org.groovemend.ledger.EditReader;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.VerificationException;

/** Looks on while edits are entered: they must be the parent's that stay, one by one. */
final class SameEdits implements Bookkeeping.Onlooker, AutoCloseable {

  private final Ledger parent;
  private final Predicate<LedgerEdit> undoes;
  private final Predicate<LedgerEdit> untouched;
  private final EditReader edits;
  private final List<Mismatch> mismatches = new ArrayList<>();

  SameEdits(Ledger parent, Predicate<LedgerEdit> undoes, Predicate<LedgerEdit> untouched)
      throws IOException {
    this.parent = parent;
    this.undoes = undoes;
    this.untouched = untouched;
    this.edits = parent.edits();
  }

  @Override
  public void block(double[][] original, double[][] restored, boolean[][] inEdit, int count) {
    // only edits are of interest
  }

  @Override
  public boolean countsUnchanged() {
    return true;
  }

  @Override
  public void edit(LedgerEdit made) {
    LedgerEdit expected = next();
    // where all may have changed, or what was taken back meets it, other words are there now
    String after = expected == null || untouched.test(expected) ? made.after() : expected.after();
    if (expected == null || !made.withNumberAndAfter(expected.number(), after).equals(expected)) {
      add(expected, made);
    }
  }

  private LedgerEdit next() {
    try {
      LedgerEdit edit = edits.next();
      while (edit != null && undoes.test(edit)) {
        edit = edits.next();
      }
      return edit;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void add(LedgerEdit expected, LedgerEdit made) {
    if (mismatches.isEmpty()) {
      mismatches.add(
          new Mismatch(
              expected == null ? "edits" : "edit " + expected.number() + " of " + expected.stage(),
              expected == null
                  ? "no more"
                  : "original " + expected.before() + ", restored " + expected.after(),
              "original " + made.before() + ", restored " + made.after()));
    }
  }

  void finish(String originalSamplesSha256) throws VerificationException {
    String expected = parent.header().original().samplesSha256();
    if (!originalSamplesSha256.equals(expected)) {
      mismatches.add(new Mismatch("samples of the original", expected, originalSamplesSha256));
    }
    LedgerEdit left = next();
    if (left != null) {
      mismatches.add(new Mismatch("edit " + left.number(), "there", "not there"));
    }
    if (!mismatches.isEmpty()) {
      throw new VerificationException(
          "The restored file is not the one that "
              + FilePath.name(parent.path())
              + " speaks of, or was altered; nothing was written.",
          mismatches);
    }
  }

  @Override
  public void close() throws IOException {
    edits.close();
  }
}
