package org.groovemend.job.undo;

import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.function.Predicate;
import org.groovemend.ledger.EditsByPosition;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;

/**
 * Edits whose words must be the same as before when others are taken back: only repairs ran, and
 * they meet none of those. Asked in the order of the ledger.
 */
final class UntouchedEdits implements Predicate<LedgerEdit>, Closeable {

  private final boolean wholeSignal;
  private final EditsByPosition undone;

  UntouchedEdits(Ledger ledger, Predicate<LedgerEdit> undoes) {
    wholeSignal = ledger.header().wholeSignal();
    undone = new EditsByPosition(ledger, undoes);
  }

  @Override
  public boolean test(LedgerEdit edit) {
    if (wholeSignal) {
      return false;
    }
    try {
      return undone.reachingInto(edit.start(), edit.end()).stream()
          .noneMatch(
              other ->
                  other.channel() == edit.channel()
                      && other.start() < edit.end()
                      && edit.start() < other.end());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws IOException {
    undone.close();
  }
}
