package org.groovemend.ledger;

import java.io.IOException;
import java.util.function.Predicate;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;

/**
 * The original's words where only repairs ran: the restored words with the edits' original words
 * put back. As every edit holds what the original file held, the order of overlapping edits is of
 * no account.
 */
public final class PatchedWords implements OriginalWords {

  private final WordSource restored;
  private final AudioFormat format;
  private final EditsByPosition edits;

  PatchedWords(Ledger ledger, WordSource restored) {
    this(ledger, restored, edit -> true);
  }

  /**
   * The restored words with the original's put back in some edits.
   *
   * @param ledger of a treatment that did nothing but repair
   * @param restored stays open
   * @param taken the edits to put back
   */
  public PatchedWords(Ledger ledger, WordSource restored, Predicate<LedgerEdit> taken) {
    this.restored = restored;
    this.format = ledger.header().original().format();
    this.edits = new EditsByPosition(ledger, taken);
  }

  @Override
  public AudioFormat format() {
    return format;
  }

  @Override
  public long frames() {
    return restored.frames();
  }

  @Override
  public void readWords(long firstFrame, int count, long[][] into, int offset) throws IOException {
    restored.readWords(firstFrame, count, into, offset);
    int width = format.bytesPerSample();
    long end = firstFrame + count;
    for (LedgerEdit edit : edits.reachingInto(firstFrame, end)) {
      long from = Math.max(firstFrame, edit.start());
      long to = Math.min(end, edit.end());
      long[] channel = into[edit.channel()];
      for (long frame = from; frame < to; frame++) {
        channel[offset + (int) (frame - firstFrame)] =
            Words.getLittleEndian(edit.original(), (int) (frame - edit.start()) * width, width);
      }
    }
  }

  @Override
  public void close() throws IOException {
    edits.close();
  }
}
