package org.groovemend.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.account.Account;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "account",
    mixinStandardHelpOptions = true,
    header = "Write one page for people who are no engineers: what was done to the record.",
    description = {
      "",
      "Everything is checked first; of files that do not hold no account is written. The page holds",
      "all it shows and prints on one sheet of A4; a browser makes a PDF of it.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend account side.ledger.jsonl          writes side.account.html beside it",
      "  groovemend account side.ledger.jsonl --out for-the-family.html --trust operator.public.pem",
      "",
      "Exit codes: 0 written; 5 something does not hold; 6 the page exists; 4 no such file."
    })
final class AccountCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;
  @Mixin private LedgerRequest ledger;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "The page. Default: NAME.account.html beside the ledger.")
  private Path out;

  @Option(names = "--replace", description = "Write over the page if it exists.")
  private boolean replace;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @Option(names = "--quiet", description = "No progress bar.")
  private boolean quiet;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    Account.Request request = ledger.request();
    Path page = out == null ? LedgerRequest.beside(request.ledger(), "account") : out;
    OutPlace.requireFile(page);
    String seal;
    Progress bar =
        quiet || json ? Progress.SILENT : ProgressBar.onTerminal(request.ledger().toString());
    try {
      seal = Account.run(request, page, replace, bar);
    } finally {
      ProgressBar.clear(bar);
    }
    LedgerRequest.tell(spec, json, "account", page, seal);
    return ExitCode.DONE;
  }
}
