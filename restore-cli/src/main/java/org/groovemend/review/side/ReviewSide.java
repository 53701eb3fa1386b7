package org.groovemend.review.side;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.OriginalWords;
import org.groovemend.ledger.VerificationException;

/**
 * What is looked at and listened to: the edits of a ledger, and the side before and after. The
 * transfer need not be at hand: it is rebuilt from the clean copy and what was kept of it.
 *
 * <p>Safe for use by several threads; each takes a pair of opened sides for a moment.
 */
public final class ReviewSide implements Closeable {

  /** As many as threads answer requests, and one for the scan. */
  private static final int KEPT_OPEN = 8;

  /** Work on an opened pair. */
  @FunctionalInterface
  interface Work<T> {
    T on(BothSides sides) throws IOException;
  }

  private final Ledger ledger;
  private final LedgerFiles files;
  private final EditTable edits;
  private final KeptWords kept;
  private final Deque<BothSides> idle = new ArrayDeque<>();
  private boolean closed;

  private ReviewSide(Ledger ledger, LedgerFiles files, EditTable edits, KeptWords kept) {
    this.ledger = ledger;
    this.files = files;
    this.edits = edits;
    this.kept = kept;
  }

  /**
   * Opens the files of a ledger and makes sure, as far as that is quick, that they are its files:
   * shape, length and the words of some edits. Whether every sample is right, {@link SideScan}
   * tells.
   *
   * @param given files that do not lie beside the ledger; nulls are looked for there
   * @throws VerificationException if a file is missing or is not the ledger's
   */
  public static ReviewSide open(Ledger ledger, LedgerFiles given)
      throws IOException, VerificationException {
    LedgerFiles files = given.or(LedgerFiles.beside(ledger));
    FileProbe.require(ledger, files);
    int count = Math.toIntExact(ledger.totals().edits());
    boolean rebuilt = files.original() == null && !ledger.header().wholeSignal();
    KeptWords kept = rebuilt ? new KeptWords(ledger.header().original().format(), count) : null;
    ReviewSide side = null;
    try {
      EditProbe probe = new EditProbe(count);
      EditTable table =
          EditTable.read(
              ledger,
              edit -> {
                probe.offer(edit);
                if (kept != null) {
                  kept.add(edit);
                }
              });
      if (kept != null) {
        kept.ready();
      }
      ReviewSide opened = new ReviewSide(ledger, files, table, kept);
      opened.with(
          sides -> {
            probe.require(ledger, sides);
            return null;
          });
      side = opened;
      return opened;
    } catch (EditProbe.DiffersException e) {
      throw new VerificationException(e.getMessage(), List.of());
    } finally {
      if (side == null && kept != null) {
        kept.close();
      }
    }
  }

  public Ledger ledger() {
    return ledger;
  }

  public EditTable edits() {
    return edits;
  }

  public AudioFormat format() {
    return ledger.header().original().format();
  }

  public long frames() {
    return ledger.header().original().frames();
  }

  /** True if the transfer itself is not at hand and is put together again. */
  public boolean rebuilt() {
    return files.original() == null;
  }

  <T> T with(Work<T> work) throws IOException {
    BothSides sides = take();
    boolean sound = false;
    try {
      T result = work.on(sides);
      sound = true;
      return result;
    } finally {
      giveBack(sides, sound);
    }
  }

  private BothSides take() throws IOException {
    synchronized (idle) {
      if (closed) {
        throw new IOException("the review was closed");
      }
      BothSides sides = idle.poll();
      if (sides != null) {
        return sides;
      }
    }
    return openBoth();
  }

  private void giveBack(BothSides sides, boolean sound) throws IOException {
    synchronized (idle) {
      if (sound && !closed && idle.size() < KEPT_OPEN) {
        idle.push(sides);
        return;
      }
    }
    sides.close();
  }

  private BothSides openBoth() throws IOException {
    List<Closeable> open = new ArrayList<>();
    boolean done = false;
    try {
      SideReader after = SideFiles.open(files.restored());
      open.add(after);
      BothSides both = new BothSides(before(after, open), after, open);
      done = true;
      return both;
    } finally {
      if (!done) {
        for (Closeable one : open) {
          one.close();
        }
      }
    }
  }

  private WordSource before(SideReader after, List<Closeable> open) throws IOException {
    if (files.original() != null) {
      SideReader original = SideFiles.open(files.original());
      open.add(original);
      return original;
    }
    if (kept != null) {
      return kept.over(after, edits);
    }
    // files of its own: the words before and after are read in turns
    SideReader removed = SideFiles.open(files.removed());
    open.add(removed);
    return OriginalWords.of(ledger, after, removed);
  }

  @Override
  public void close() throws IOException {
    synchronized (idle) {
      closed = true;
      for (BothSides sides : idle) {
        sides.close();
      }
      idle.clear();
    }
    if (kept != null) {
      kept.close();
    }
  }
}
