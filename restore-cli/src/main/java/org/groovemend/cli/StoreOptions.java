package org.groovemend.cli;

import java.nio.file.Path;
import picocli.CommandLine.Option;

/** Options of a verification of a whole store. */
final class StoreOptions {

  @Option(
      names = "--all",
      description =
          "What is named is a folder: check every ledger, delivery and bag in it, and all files"
              + " that they name.")
  boolean all;

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description =
          "With --all: what was found, line by line; a round that was stopped goes on with it."
              + " Default: beside the folder, NAME.fixity.jsonl.")
  Path record;

  @Option(
      names = "--thorough",
      description =
          "With --all: make every check of a single ledger, also that the original can be rebuilt."
              + " Takes several times as long.")
  boolean thorough;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "With --all: processors to use. Default: all.")
  Integer threads;

  @Option(names = "--csv", description = "With --all: print the findings as a table.")
  boolean csv;

  @Option(names = "--quiet", description = "With --all: no progress bar.")
  boolean quiet;

  void requireNone() {
    if (record != null || thorough || threads != null || csv) {
      throw new UsageException(
          "--record, --thorough, --threads and --csv are for a whole store; give --all and its"
              + " folder");
    }
  }

  int threads() {
    int n = threads == null ? Runtime.getRuntime().availableProcessors() : threads;
    if (n < 1 || n > 256) {
      throw new UsageException("--threads " + n + " is not between 1 and 256");
    }
    return n;
  }
}
