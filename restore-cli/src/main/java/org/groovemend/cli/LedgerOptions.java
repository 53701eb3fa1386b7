package org.groovemend.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.ledger.LedgerFiles;
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

  LedgerFiles files(Path original) {
    return new LedgerFiles(original, restored, removed);
  }
}
