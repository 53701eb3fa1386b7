package org.groovemend.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.account.Account;
import org.groovemend.job.account.LedgerReport;
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
  @Mixin private LedgerRequest ledger;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "The page. Default: NAME.report.html beside the ledger.")
  private Path out;

  @Option(names = "--replace", description = "Write over the page if it exists.")
  private boolean replace;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    Account.Request request = ledger.request();
    Path page = out == null ? LedgerRequest.beside(request.ledger(), "report") : out;
    OutPlace.requireFile(page);
    String seal;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(request.ledger().toString());
      try {
        seal = LedgerReport.run(request, page, replace, hands.crew(), hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    LedgerRequest.tell(spec, common.json(), "report", page, seal);
    return ExitCode.DONE;
  }
}
