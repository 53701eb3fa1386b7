package org.groovemend.ledger;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * The edits that reach into a range, read from the ledger as the range moves forward. Keeps only
 * those; a range further back begins the reading anew.
 */
public final class EditsByPosition implements Closeable {

  private final Ledger ledger;
  private final List<LedgerEdit> active = new ArrayList<>();
  private LedgerReader reader;
  private LedgerEdit pending;
  private long position;

  public EditsByPosition(Ledger ledger) {
    this.ledger = ledger;
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
      pending = nextEdit();
    }
    return active;
  }

  private void restart() throws IOException {
    close();
    active.clear();
    reader = ledger.reader();
    pending = nextEdit();
  }

  private LedgerEdit nextEdit() throws IOException {
    for (LedgerRecord record = reader.next(); record != null; record = reader.next()) {
      if (record instanceof LedgerEdit edit) {
        return edit;
      } else if (record instanceof LedgerTotals) {
        return null;
      }
    }
    return null;
  }

  @Override
  public void close() throws IOException {
    if (reader != null) {
      reader.close();
    }
  }
}
