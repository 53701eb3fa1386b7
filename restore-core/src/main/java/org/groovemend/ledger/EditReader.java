package org.groovemend.ledger;

import java.io.Closeable;
import java.io.IOException;

/** The edits of a ledger one by one, read from its file; holds one at a time. */
public final class EditReader implements Closeable {

  private final LedgerReader reader;
  private boolean ended;

  EditReader(LedgerReader reader) {
    this.reader = reader;
  }

  /** The next edit in the order of the ledger, or null after the last. */
  public LedgerEdit next() throws IOException {
    while (!ended) {
      LedgerRecord record = reader.next();
      if (record instanceof LedgerEdit edit) {
        return edit;
      }
      ended = record == null || record instanceof LedgerTotals;
    }
    return null;
  }

  @Override
  public void close() throws IOException {
    reader.close();
  }
}
