package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.chain.Progress;
import org.groovemend.fixity.FixityFinding;
import org.groovemend.fixity.FixityOutcome;
import org.groovemend.fixity.FixityRun;

/** {@code verify --all}: a round over a whole store, and what it found. */
final class VerifyStore {

  private final Path store;
  private final StoreOptions options;
  private final boolean json;
  private final PrintWriter out;

  VerifyStore(Path store, StoreOptions options, boolean json, PrintWriter out) {
    this.store = store;
    this.options = options;
    this.json = json;
    this.out = out;
  }

  int run() throws IOException {
    if (!Files.isDirectory(store)) {
      throw new InputRejectedException(
          store, "", "there is no such folder", "--all wants the folder of a store");
    }
    if (json && options.csv) {
      throw new UsageException("--json and --csv are two forms; give one of them");
    }
    Path record = record();
    boolean silent = json || options.csv || options.quiet;
    Progress bar = silent ? Progress.SILENT : ProgressBar.onTerminal(store.toString());
    FixityOutcome outcome;
    try (Hands hands = new Hands(1)) {
      outcome =
          FixityRun.run(
              new FixityRun.Wish(store, record, options.thorough, options.threads()),
              Clock.systemUTC(),
              hands::stopping,
              bar);
    } finally {
      ProgressBar.clear(bar);
    }
    if (json) {
      Json.print(out, map(outcome, record));
    } else if (options.csv) {
      table(outcome);
    } else {
      text(outcome, record);
    }
    out.flush();
    return outcome.interrupted()
        ? ExitCode.INTERRUPTED
        : outcome.holds() ? ExitCode.DONE : ExitCode.VERIFICATION_FAILED;
  }

  private Path record() {
    if (options.record != null) {
      return options.record;
    }
    Path whole = store.toAbsolutePath().normalize();
    if (whole.getParent() == null || !Files.isWritable(whole.getParent())) {
      throw new UsageException(
          "the record of this verification would lie beside "
              + whole
              + ", where nothing can be written; name a file with --record");
    }
    return whole.resolveSibling(whole.getFileName() + ".fixity.jsonl");
  }

  private Map<String, Object> map(FixityOutcome outcome, Path record) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("verifyAll", 1);
    map.put("store", store.toString());
    map.put("holds", outcome.holds());
    map.put("interrupted", outcome.interrupted());
    map.put("checked", outcome.checked());
    map.put("checkedBefore", outcome.before());
    map.put("files", outcome.files());
    map.put("bytes", outcome.bytes());
    map.put("notVouchedFor", outcome.companions());
    map.put("seconds", outcome.seconds());
    map.put("found", outcome.found());
    map.put("faults", outcome.faults());
    map.put("record", record.toString());
    map.put("findings", outcome.findings());
    return map;
  }

  private void table(FixityOutcome outcome) {
    out.print("kind,file,what\r\n");
    for (FixityFinding finding : outcome.findings()) {
      out.print(
          word(finding)
              + ","
              + CatalogueCommand.cell(finding.file())
              + ","
              + CatalogueCommand.cell(finding.what())
              + "\r\n");
    }
  }

  private static String word(FixityFinding finding) {
    return finding.kind().name().toLowerCase(Locale.ROOT);
  }

  private void text(FixityOutcome outcome, Path record) {
    for (FixityFinding finding : outcome.findings()) {
      out.println(String.format(Locale.ROOT, "%-11s %s", word(finding), finding.what()));
    }
    if (outcome.found() > outcome.findings().size()) {
      out.println("... " + (outcome.found() - outcome.findings().size()) + " more, see the record");
    }
    out.println(
        String.format(
            Locale.ROOT,
            "%,d checked%s, %,d files, %,.1f MB in %s",
            outcome.checked(),
            outcome.before() > 0
                ? String.format(Locale.ROOT, " (%,d before)", outcome.before())
                : "",
            outcome.files(),
            outcome.bytes() / 1e6,
            ProgressBar.duration(outcome.seconds())));
    if (outcome.companions() > 0) {
      out.println(
          String.format(
              Locale.ROOT,
              "  %,d pages, decisions and the like: no ledger holds their digests",
              outcome.companions()));
    }
    out.println("  record  " + record);
    out.println(
        outcome.interrupted()
            ? "Interrupted; the same command again goes on."
            : outcome.faults() == 0
                ? "Everything that is vouched for is there and unchanged."
                : "VERIFICATION FAILED: "
                    + outcome.faults()
                    + (outcome.faults() == 1 ? " fault." : " faults."));
  }
}
