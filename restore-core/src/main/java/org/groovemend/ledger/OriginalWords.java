package org.groovemend.ledger;

import java.io.Closeable;
import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;

/**
 * The original's words, rebuilt from what was kept. Closing leaves the sources open. Reading
 * backwards is slow where only repairs ran, as the ledger is then read anew.
 */
public sealed interface OriginalWords extends WordSource, Closeable
    permits PatchedWords, SummedWords {

  /**
   * Rebuilds as the ledger says.
   *
   * @param removed as its file holds them; unused if only repairs ran
   */
  static OriginalWords of(Ledger ledger, WordSource restored, WordSource removed) {
    if (!ledger.header().wholeSignal()) {
      return new PatchedWords(ledger, restored);
    }
    AudioFormat format = ledger.header().original().format();
    boolean split = format.containerBits() == Long.SIZE;
    return new SummedWords(format, restored, split ? SplitWords.joined(removed) : removed);
  }

  @Override
  void close() throws IOException;
}
