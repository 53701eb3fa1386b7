package org.groovemend.cli;

import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.audio.FilePath;
import org.groovemend.chain.Progress;
import org.groovemend.job.account.Account;
import org.groovemend.job.account.LedgerReport;
import org.groovemend.ledger.Ledger;
import org.groovemend.signing.Fingerprint;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Writes the page of a copy from its ledger. */
@Command(
    name = "report",
    mixinStandardHelpOptions = true,
    header = "Write the page of a copy from its ledger, above all of one with edits taken back.",
    description = {
      "",
      "What was done and what was taken back, pictures before and after, where the edits lie, the most",
      "doubtful ones. Everything is checked first; of files that do not hold no page is written.",
      "'restore' writes a page of its own, with clips and with what it measured on its way.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend report side.undo-1.ledger.jsonl    writes side.undo-1.report.html beside it",
      "  groovemend report gentler/side.undo-1.ledger.jsonl --parent side.ledger.jsonl --out page.html",
      "",
      "Exit codes: 0 written; 5 something does not hold; 6 the page exists; 4 no such file."
    })
final class ReportCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;
  @Mixin private LedgerOptions options;

  @Option(
      names = "--original",
      paramLabel = "FILE",
      description = "The transfer. Default: beside the ledger; need not be at hand.")
  private Path original;

  @Mixin private ParentOptions parents;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "The page. Default: NAME.report.html beside the ledger.")
  private Path out;

  @Option(names = "--replace", description = "Write over the page if it exists.")
  private boolean replace;

  @Mixin private SignatureOptions signatures;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Path ledger = options.ledger();
    Path page = out == null ? beside(ledger) : out;
    OutPlace.requireFile(page);
    Account.Request request =
        new Account.Request(
            ledger,
            options.files(original),
            parents.places(),
            signatures.wish(),
            "groovemend " + Version.number(),
            Clock.systemUTC().instant());
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(ledger.toString());
      try {
        LedgerReport.run(request, page, replace, hands.crew(), hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    String fingerprint = Fingerprint.of(Ledger.open(ledger).seal()).text();
    if (common.json()) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("report", 1);
      result.put("page", page.toString());
      result.put("fingerprint", fingerprint);
      Json.print(spec.commandLine().getOut(), result);
    } else {
      spec.commandLine().getOut().println("report       " + page);
      spec.commandLine().getOut().println("fingerprint  " + fingerprint + "  for the sleeve");
    }
    return ExitCode.DONE;
  }

  private static Path beside(Path ledger) {
    return ledger.resolveSibling(
        FilePath.name(ledger).replaceFirst("\\.ledger\\.jsonl$", "") + ".report.html");
  }
}
