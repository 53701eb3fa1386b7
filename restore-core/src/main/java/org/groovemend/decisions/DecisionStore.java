package org.groovemend.decisions;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.UnaryOperator;
import org.groovemend.delivery.FileTurn;
import org.groovemend.delivery.RenewedFile;
import org.groovemend.ledger.Ledger;
import org.groovemend.sealed.SealedDocument;
import org.groovemend.sealed.SealedDocumentException;

/**
 * A file of decisions that is being worked on. Each change is on the disk before {@link #change}
 * returns, and whoever is killed meanwhile leaves the file as it was before or after that change.
 * One reviewer at a time: a lock (a file beside it, {@code NAME.lock}) is held while the store is
 * open, and a file that somebody changed all the same is not written over.
 *
 * <p>Safe for use by several threads.
 */
public final class DecisionStore implements Closeable {

  private final Path file;
  private final FileTurn turn;

  /** Guards what follows, and the file. */
  private final Object change = new Object();

  private DecisionFile decisions;

  /** Seal of what was read or written last; null as long as there is no file. */
  private String seal;

  private DecisionStore(Path file, FileTurn turn) {
    this.file = file;
    this.turn = turn;
  }

  /**
   * Opens decisions about a ledger, or begins new ones; the file is made by the first change.
   *
   * @param reviewer who decides, for new decisions and in place of an empty name
   * @throws DecisionsTakenException if somebody else has them open
   * @throws SealedDocumentException if the file was altered, or is about another ledger
   */
  public static DecisionStore open(Path file, Ledger ledger, String reviewer) throws IOException {
    FileTurn turn = FileTurn.take(file, 0);
    if (turn == null) {
      throw new DecisionsTakenException(file);
    }
    DecisionStore store = new DecisionStore(file, turn);
    try {
      store.load(LedgerName.of(ledger), reviewer);
      return store;
    } catch (IOException | RuntimeException e) {
      turn.close();
      throw e;
    }
  }

  private void load(LedgerName ledger, String reviewer) throws IOException {
    synchronized (change) {
      read(ledger, reviewer);
    }
  }

  private void read(LedgerName ledger, String reviewer) throws IOException {
    if (!Files.exists(file)) {
      decisions = DecisionFile.empty(ledger, reviewer);
      return;
    }
    SealedDocument document = SealedDocument.read(file);
    decisions = DecisionDocument.of(document, file.toString());
    seal = document.seal();
    if (!decisions.ledger().seal().equals(ledger.seal())) {
      throw new SealedDocumentException(
          file
              + " was made for another ledger, "
              + decisions.ledger().name()
              + " of seal "
              + decisions.ledger().seal()
              + "; give the decisions of this one, or another name for new ones.");
    }
    if (decisions.reviewer().isEmpty() && decisions.signOff() == null) {
      decisions = decisions.by(reviewer);
    }
  }

  /** What is decided up to now. */
  public DecisionFile decisions() {
    synchronized (change) {
      return decisions;
    }
  }

  /**
   * Changes the decisions; when it returns they are on the disk, when it throws they are as before
   * here and, with one exception, in the file: where the disk refuses to say that the renamed file
   * is safe, the file may hold the change already. It is then met as one that somebody changed.
   *
   * @throws SealedDocumentException if somebody changed or removed the file meanwhile
   * @throws IllegalArgumentException if the change asks for what cannot be
   * @throws IllegalStateException if they are signed off
   */
  public DecisionFile change(UnaryOperator<DecisionFile> step) throws IOException {
    synchronized (change) {
      DecisionFile next = step.apply(decisions);
      requireUntouched();
      SealedDocument document = DecisionDocument.of(next);
      RenewedFile.write(file, document.bytes());
      seal = document.seal();
      decisions = next;
      return next;
    }
  }

  private void requireUntouched() throws IOException {
    String found = Files.exists(file) ? SealedDocument.read(file).seal() : null;
    if (seal == null ? found != null : !seal.equals(found)) {
      throw new SealedDocumentException(
          file
              + " was "
              + (found == null ? "removed" : "changed")
              + " by somebody else meanwhile; nothing was written. Close the review and open it again.");
    }
  }

  /** Lets others at the decisions. */
  @Override
  public void close() throws IOException {
    synchronized (change) {
      turn.close();
    }
  }
}
