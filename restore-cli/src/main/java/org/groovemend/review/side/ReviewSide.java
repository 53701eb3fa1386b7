package org.groovemend.review.side;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerHeader;
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
  private final List<Path> parents;
  private final EditTable edits;
  private final KeptWords kept;
  private final Deque<BothSides> idle = new ArrayDeque<>();
  private boolean closed;

  private ReviewSide(
      Ledger ledger, LedgerFiles files, List<Path> parents, EditTable edits, KeptWords kept) {
    this.ledger = ledger;
    this.files = files;
    this.parents = parents;
    this.edits = edits;
    this.kept = kept;
  }

  /**
   * Reads a ledger, once, opens its files and makes sure, as far as that is quick, that they are
   * its files: shape, length and the words of some edits. Whether every sample is right, {@link
   * SideScan} tells.
   *
   * @param given files that do not lie beside the ledger; nulls are looked for there
   * @param parents ledgers, or folders of such, that it descends from, where they are not found
   *     without help
   * @param progress told how much of the ledger is read
   * @throws VerificationException if a file is missing or is not the ledger's
   */
  public static ReviewSide open(
      Path ledgerFile, LedgerFiles given, List<Path> parents, Progress progress)
      throws IOException, VerificationException {
    ReviewSide side = null;
    Reading reading = new Reading(ledgerFile, given, progress);
    try {
      Ledger ledger = Ledger.open(ledgerFile, reading);
      LedgerFiles files = given.or(LedgerFiles.beside(ledger));
      FileProbe.require(ledger, files);
      if (reading.kept != null) {
        reading.kept.ready();
      }
      ReviewSide opened = new ReviewSide(ledger, files, parents, reading.table, reading.kept);
      opened.with(
          sides -> {
            reading.probe.require(ledger, sides);
            return null;
          });
      side = opened;
      return opened;
    } catch (EditProbe.DiffersException e) {
      throw new VerificationException(e.getMessage(), List.of());
    } finally {
      if (side == null && reading.kept != null) {
        reading.kept.close();
      }
    }
  }

  /** Gathers what is needed of a ledger while it is checked: reading it takes seconds. */
  private static final class Reading implements Ledger.Onlooker {
    private final Path ledger;
    private final LedgerFiles given;
    private final Progress progress;
    private final EditTable table = new EditTable();
    private final EditProbe probe = new EditProbe();

    /** Null as long as the transfer may be at hand, and if it is not needed. */
    private KeptWords kept;

    Reading(Path ledger, LedgerFiles given, Progress progress) {
      this.ledger = ledger;
      this.given = given;
      this.progress = progress;
    }

    @Override
    public void header(LedgerHeader header) throws IOException {
      boolean atHand =
          given.original() != null
              || LedgerFiles.in(FilePath.folder(ledger), header.original().name()) != null;
      if (!atHand && !header.wholeSignal()) {
        kept = new KeptWords(header.original().format());
      }
    }

    @Override
    public void edit(LedgerEdit edit) throws IOException {
      table.add(edit);
      probe.offer(edit);
      if (kept != null) {
        kept.add(edit);
      }
    }

    @Override
    public void at(long bytes, long ofBytes) {
      progress.at("reading the ledger", bytes, ofBytes);
    }
  }

  public Ledger ledger() {
    return ledger;
  }

  /** What was said of where the ledgers lie that this one descends from. */
  List<Path> parents() {
    return parents;
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
