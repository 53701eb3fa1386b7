package org.groovemend.cli;

import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.audio.FilePath;
import org.groovemend.chain.Progress;
import org.groovemend.job.account.Account;
import org.groovemend.ledger.Ledger;
import org.groovemend.signing.Fingerprint;
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
      description = "The page. Default: NAME.account.html beside the ledger.")
  private Path out;

  @Option(names = "--replace", description = "Write over the page if it exists.")
  private boolean replace;

  @Mixin private SignatureOptions signatures;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @Option(names = "--quiet", description = "No progress bar.")
  private boolean quiet;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

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
    Progress bar = quiet || json ? Progress.SILENT : ProgressBar.onTerminal(ledger.toString());
    try {
      Account.run(request, page, replace, bar);
    } finally {
      ProgressBar.clear(bar);
    }
    String fingerprint = Fingerprint.of(Ledger.open(ledger).seal()).text();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("account", 1);
      result.put("page", page.toString());
      result.put("fingerprint", fingerprint);
      Json.print(spec.commandLine().getOut(), result);
    } else {
      spec.commandLine().getOut().println("account      " + page);
      spec.commandLine().getOut().println("fingerprint  " + fingerprint + "  for the sleeve");
    }
    return ExitCode.DONE;
  }

  private static Path beside(Path ledger) {
    return ledger.resolveSibling(
        FilePath.name(ledger).replaceFirst("\\.ledger\\.jsonl$", "") + ".account.html");
  }
}
