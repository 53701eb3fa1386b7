package org.groovemend.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.VerificationException;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** A ledger and where its files are. */
final class LedgerOptions {

  @Parameters(paramLabel = "LEDGER", description = "Ledger file, NAME.ledger.jsonl.")
  private Path ledger;

  @Option(
      names = "--restored",
      paramLabel = "FILE",
      description = "The clean copy. Default: beside the ledger.")
  private Path restored;

  @Option(
      names = "--removed",
      paramLabel = "FILE",
      description = "What was taken away. Default: beside the ledger.")
  private Path removed;

  /** What was named, whatever it is. */
  Path given() {
    return ledger;
  }

  boolean namesFiles() {
    return restored != null || removed != null;
  }

  Path ledger() throws InputRejectedException {
    return requireLedger(ledger);
  }

  /** A folder is what a person gives first. */
  static Path requireLedger(Path file) throws InputRejectedException {
    if (Files.isDirectory(file)) {
      throw new InputRejectedException(
          file, "", "it is a folder", "name the ledger in it, NAME.ledger.jsonl");
    }
    return file;
  }

  /**
   * A copy or a removed signal too damaged to be read is as little the ledger's file as one with
   * other samples.
   *
   * @return what is to be thrown
   * @throws InputRejectedException the same one if it is about something else
   */
  static VerificationException damaged(InputRejectedException e, Path ledger)
      throws InputRejectedException {
    if (e.path().equals(ledger) || !Files.isReadable(e.path())) {
      throw e;
    }
    Mismatch damaged =
        new Mismatch(
            e.path().toString(),
            "the file that the ledger speaks of",
            "one that cannot be read, " + e.finding());
    VerificationException told =
        new VerificationException(
            "The original cannot be rebuilt from these files: take those that were written together with the ledger,"
                + " unaltered.",
            List.of(damaged));
    told.initCause(e);
    return told;
  }

  LedgerFiles files(Path original) {
    return new LedgerFiles(original, restored, removed);
  }
}
