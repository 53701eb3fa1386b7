package org.groovemend.ledger;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/**
 * The edits that reach into a range, read from the ledger as the range moves forward. Keeps only
 * those; a range further back begins the reading anew.
 */
public final class EditsByPosition implements Closeable {

  private final Ledger ledger;
  private final Predicate<LedgerEdit> wanted;
  private final List<LedgerEdit> active = new ArrayList<>();
  private EditReader reader;
  private LedgerEdit pending;
  private long position;

  public EditsByPosition(Ledger ledger) {
    this(ledger, edit -> true);
  }

  /** Of those edits that are wanted. */
  public EditsByPosition(Ledger ledger, Predicate<LedgerEdit> wanted) {
    this.ledger = ledger;
    this.wanted = wanted;
  }

  /**
   * All edits that overlap [first, end), perhaps with some that begin later; valid until the next
   * call.
   */
  public List<LedgerEdit> reachingInto(long first, long end) throws IOException {
    if (reader == null || first < position) {
      restart();
    }
    position = first;
    active.removeIf(edit -> edit.end() <= first);
    while (pending != null && pending.start() < end) {
      if (pending.end() > first) {
        active.add(pending);
      }
      pending = next();
    }
    return active;
  }

  private void restart() throws IOException {
    close();
    active.clear();
    reader = ledger.edits();
    pending = next();
  }

  private LedgerEdit next() throws IOException {
    LedgerEdit edit = reader.next();
    while (edit != null && !wanted.test(edit)) {
      edit = reader.next();
    }
    return edit;
  }

  @Override
  public void close() throws IOException {
    if (reader != null) {
      reader.close();
    }
  }
}
