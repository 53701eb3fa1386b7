package org.groovemend.cli;

import org.groovemend.chain.Progress;
import picocli.CommandLine.Option;

/** Options that every long command has. */
final class CommonOptions {

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Processors to use; the result is the same for any number. Default: all.")
  private Integer threads;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @Option(names = "--quiet", description = "No progress bar.")
  private boolean quiet;

  @Option(names = "--debug", hidden = true, description = "Print where a failure came from.")
  private boolean debug;

  int threads() {
    int n = threads == null ? Runtime.getRuntime().availableProcessors() : threads;
    if (n < 1 || n > 256) {
      throw new UsageException("--threads " + n + " is not between 1 and 256");
    }
    return n;
  }

  boolean json() {
    return json;
  }

  boolean debug() {
    return debug;
  }

  Progress progress(String label) {
    return quiet || json ? Progress.SILENT : ProgressBar.onTerminal(label);
  }

  /** Whether progress is to be drawn. */
  boolean onTerminal() {
    return !quiet && !json && ProgressBar.isTerminal(System.console());
  }
}
