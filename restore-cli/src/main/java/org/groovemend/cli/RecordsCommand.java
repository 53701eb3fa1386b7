package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.account.Account;
import org.groovemend.job.handover.Records;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "records",
    mixinStandardHelpOptions = true,
    header = "Write what archives want of a treatment: PREMIS, technical metadata, edits, account.",
    description = {
      "",
      "Everything is checked first. NAME.premis.xml holds objects, events and agents (PREMIS 3),",
      "NAME.technical.xml how transfer and copy are, NAME.edits.csv every edit with its level,",
      "NAME.account.html a page for people. With --bag the folder becomes a BagIt bag of all files:",
      "transfer (rebuilt if it is not at hand), copy, removed signal, ledger, report, signatures,",
      "decisions and these records.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend records side.ledger.jsonl --out records",
      "  groovemend records side.ledger.jsonl --out hand-over/side --bag --trust operator.public.pem",
      "",
      "Exit codes: 0 written; 2 a file that a bag must hold is not at hand; 5 something does not",
      "hold; 6 an output exists; 4 no such file."
    })
final class RecordsCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;
  @Mixin private LedgerRequest ledger;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "The folder for the records; with --bag the bag, a folder that is to appear.")
  private Path out;

  @Option(names = "--bag", description = "Make a BagIt bag of all files and the records.")
  private boolean bag;

  @Option(names = "--replace", description = "Write over records, or a bag, that exist.")
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
    OutPlace.requireFolder(out);
    Account.Request request = ledger.request();
    Progress bar =
        quiet || json ? Progress.SILENT : ProgressBar.onTerminal(request.ledger().toString());
    Records.Outcome outcome;
    try {
      outcome = Records.run(request, out, bag, replace, bar);
    } finally {
      ProgressBar.clear(bar);
    }
    PrintWriter text = spec.commandLine().getOut();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("records", 1);
      result.put("folder", outcome.folder().toString());
      result.put("bag", bag);
      result.put("written", outcome.files());
      result.put("carried", outcome.carried());
      result.put("originalRebuilt", outcome.rebuilt());
      Json.print(text, result);
      return ExitCode.DONE;
    }
    text.println((bag ? "bag  " : "folder  ") + outcome.folder());
    outcome.files().forEach(name -> text.println("  written  " + name));
    outcome.carried().forEach(name -> text.println("  carried  " + name));
    if (outcome.rebuilt()) {
      text.println(
          "  note: the original was not at hand; the one in the bag was rebuilt, byte for byte");
    }
    text.flush();
    return ExitCode.DONE;
  }
}
