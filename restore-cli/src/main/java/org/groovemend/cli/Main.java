package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import org.visnow.jlargearrays.ConcurrencyUtils;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;

/** Entry of the command line. */
@Command(
    name = "groovemend",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    header =
        "Clean copies of digitised gramophone records; every change can be audited and undone.",
    description = {
      "",
      "The transfer you give is only ever read. Beside a clean copy you get a ledger of every",
      "change, from which the original file comes back byte for byte."
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend demo                          see all of it on an invented record",
      "  groovemend inspect side.wav              what the transfer is and how worn",
      "  groovemend watch captures                the same for each as the capture finishes it",
      "  groovemend restore side.wav              clean it, with the defaults",
      "  groovemend batch transfers --out cleaned a whole collection, overnight",
      "  groovemend overview cleaned              what failed, the worst first, what to hear",
      "  groovemend disc side.ledger.jsonl        the repairs as the disc lies, a picture",
      "  groovemend speed side.wav                how fast ought it to run?",
      "  groovemend deliver recipe.yaml           the copies that a recipe declares",
      "  groovemend compare a.wav b.wav           which of two plays of a side is better?",
      "  groovemend merge a.wav b.wav --out c.wav one transfer of both",
      "  groovemend bands side.wav                where are the gaps between its bands?",
      "  groovemend review side.ledger.jsonl      see, hear and judge each edit",
      "  groovemend audit side.wav copy.wav       what became of it in the copy?",
      "  groovemend verify side.ledger.jsonl      does everything still hold?",
      "  groovemend verify --all cleaned          does a whole store still hold?",
      "  groovemend revert side.ledger.jsonl --out original.wav",
      "  groovemend undo side.ledger.jsonl --edit 17   a new copy without that repair",
      "",
      "Exit codes: 0 done, 1 unexpected, 2 usage, 3 part of several sides failed, 4 input refused,",
      "5 verification found a difference, 6 output exists, 130 interrupted. Any other code is a"
          + " failure.",
      "",
      "Caution: the removed signal is clicks and hiss. Listen to it at a low level first."
    },
    synopsisSubcommandLabel = "COMMAND",
    subcommands = {
      DemoCommand.class,
      BandsCommand.class,
      EvaluateCommand.class,
      InspectCommand.class,
      WatchCommand.class,
      CompareCommand.class,
      MergeCommand.class,
      RestoreCommand.class,
      BatchCommand.class,
      CatalogueCommand.class,
      OverviewCommand.class,
      EditsCommand.class,
      DiscCommand.class,
      NoiseCommand.class,
      CurveCommand.class,
      LevelsCommand.class,
      LoadingCommand.class,
      SpeedCommand.class,
      DeliverCommand.class,
      WallsCommand.class,
      ReviewCommand.class,
      AuditCommand.class,
      VerifyCommand.class,
      KeyCommand.class,
      SignCommand.class,
      AccountCommand.class,
      RecordsCommand.class,
      ReportCommand.class,
      BagCommand.class,
      RevertCommand.class,
      UndoCommand.class,
      TreatmentCommand.class,
      HelpCommand.class
    })
public final class Main {

  private Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    // the crew works on segments in parallel; transforms must not start threads of their own
    ConcurrencyUtils.setNumberOfThreads(1);
    System.exit(commandLine().execute(args));
  }

  static CommandLine commandLine() {
    return configured(new CommandLine(new Main()));
  }

  /** With the manners that all our commands have. */
  static CommandLine configured(CommandLine line) {
    line.setOut(new PrintWriter(System.out, true, StandardCharsets.UTF_8));
    line.setErr(new PrintWriter(System.err, true, StandardCharsets.UTF_8));
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setUsageHelpAutoWidth(false);
    line.setUsageHelpWidth(98);
    line.setParameterExceptionHandler(Failures::ofUsage);
    line.setExecutionExceptionHandler(Failures::ofExecution);
    return line;
  }
}
