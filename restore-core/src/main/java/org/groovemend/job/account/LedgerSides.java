package org.groovemend.job.account;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.OriginalWords;

/** Transfer and clean copy of a ledger, as far as they are at hand. */
public final class LedgerSides implements Closeable {

  private final Deque<Closeable> open = new ArrayDeque<>();
  private WordSource original;
  private SideReader restored;

  private LedgerSides() {}

  /**
   * Opens what is there; a transfer that is not is put together from copy and ledger.
   *
   * @param files that are at hand, known to be those of the ledger
   */
  public static LedgerSides open(Ledger ledger, LedgerFiles files) throws IOException {
    LedgerSides sides = new LedgerSides();
    try {
      sides.restored = sides.reader(files.restored());
      sides.original = sides.reader(files.original());
      boolean whole = ledger.header().wholeSignal();
      if (sides.original == null && sides.restored != null && (!whole || files.removed() != null)) {
        SideReader removed = whole ? sides.reader(files.removed()) : null;
        OriginalWords words = OriginalWords.of(ledger, sides.restored, removed);
        sides.open.push(words);
        sides.original = words;
      }
      return sides;
    } catch (IOException | RuntimeException e) {
      sides.close();
      throw e;
    }
  }

  private SideReader reader(Path file) throws IOException {
    if (file == null) {
      return null;
    }
    SideReader reader = SideFiles.open(file);
    open.push(reader);
    return reader;
  }

  /** The transfer's words, or null. */
  WordSource original() {
    return original;
  }

  /** The clean copy, or null. */
  public SideReader restored() {
    return restored;
  }

  /** True if there is something to compare. */
  boolean both() {
    return original != null && restored != null;
  }

  @Override
  public void close() throws IOException {
    for (Closeable each : open) {
      each.close();
    }
  }
}
