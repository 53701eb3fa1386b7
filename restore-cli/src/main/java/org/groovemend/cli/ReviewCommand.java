package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.net.BindException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.audio.FilePath;
import org.groovemend.chain.Progress;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.DecisionStore;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.VerificationException;
import org.groovemend.review.ReviewServer;
import org.groovemend.review.desk.DecisionDesk;
import org.groovemend.review.side.ReviewSide;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "review",
    mixinStandardHelpOptions = true,
    header = "See, hear and decide about every edit of a ledger, on a page in your browser.",
    description = {
      "",
      "The page comes from this program, on this machine alone, and needs no network. Decisions are",
      "in their file as soon as they are made; sound files and ledger are only read. The transfer",
      "need not be at hand. It goes on until the page or Ctrl-C ends it.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend review cleaned/side.ledger.jsonl",
      "  groovemend review side.ledger.jsonl --reviewer listener-1",
      "  groovemend review side.ledger.jsonl --decisions second-opinion.json --no-browser",
      "",
      "Keys: on the page, ? lists them.",
      "Caution: set the level low before you listen, above all to what was taken away."
    })
final class ReviewCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;
  @Mixin private LedgerOptions options;

  @Option(
      names = "--original",
      paramLabel = "FILE",
      description = "The transfer. Default: beside the ledger, else put together again.")
  private Path original;

  @Mixin private ParentOptions parents;

  @Option(
      names = "--decisions",
      paramLabel = "FILE",
      description = "File of decisions. Default: NAME.decisions.json beside the ledger.")
  private Path decisions;

  @Option(
      names = "--reviewer",
      paramLabel = "NAME",
      description = "Who decides; stands in the file of decisions. Default: nobody named.")
  private String reviewer;

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "Port on this machine, 1024 to 65535. Default: any that is free.")
  private Integer port;

  @Option(names = "--no-browser", description = "Only print the address, open no browser.")
  private boolean noBrowser;

  @Option(
      names = "--json",
      description = "Print one JSON object for machines, with the address, instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    requirePort();
    try (ReviewSide side = read()) {
      review(side);
    }
    return ExitCode.DONE;
  }

  private ReviewSide read() throws IOException, VerificationException {
    Path ledger = options.ledger();
    Progress bar = json ? Progress.SILENT : ProgressBar.onTerminal(Usage.fileName(ledger));
    try {
      return ReviewSide.open(ledger, options.files(original), parents.places(), bar);
    } finally {
      ProgressBar.clear(bar);
    }
  }

  private void review(ReviewSide side) throws Exception {
    Ledger ledger = side.ledger();
    Path file = decisionsFile(ledger);
    try (DecisionStore store = open(file, ledger)) {
      nameReviewer(store);
      DecisionDesk desk = new DecisionDesk(store, side.edits(), Clock.systemUTC());
      try (ReviewServer server = start(side, desk, next(ledger, file))) {
        Thread hook = new Thread(() -> closeAll(server, desk, side), "groovemend-review-end");
        Runtime.getRuntime().addShutdownHook(hook);
        tell(server, file);
        server.awaitEnd();
        removeHook(hook);
      }
    }
    if (!json) {
      spec.commandLine().getOut().println("The review is closed; the decisions are in " + file);
    }
  }

  private void requirePort() {
    if (port != null && (port < 1024 || port > 65_535)) {
      throw new UsageException("--port " + port + " is not between 1024 and 65535");
    }
  }

  private Path decisionsFile(Ledger ledger) throws IOException {
    Path file =
        decisions != null
            ? decisions
            : ledger.path().resolveSibling(DecisionDocument.nameFor(ledger));
    OutPlace.requireFile(file, "--decisions");
    Path folder = FilePath.folder(file);
    if (!Files.isDirectory(folder)) {
      throw new UsageException("--decisions: there is no folder " + folder + "; make it first");
    }
    return file;
  }

  private DecisionStore open(Path file, Ledger ledger) throws IOException {
    try {
      return DecisionStore.open(file, ledger, reviewer == null ? "" : reviewer.strip());
    } catch (FileSystemException e) {
      throw new IOException(
          file
              + ": decisions cannot be written there"
              + (e.getReason() == null ? "" : " (" + e.getReason() + ")")
              + "; give another place with --decisions.",
          e);
    }
  }

  private void nameReviewer(DecisionStore store) throws IOException {
    DecisionFile now = store.decisions();
    if (reviewer == null || reviewer.isBlank() || now.reviewer().equals(reviewer.strip())) {
      return;
    }
    if (now.signOff() == null) {
      store.change(file -> file.by(reviewer.strip()));
    }
  }

  private ReviewServer start(ReviewSide side, DecisionDesk desk, Map<String, Object> next)
      throws IOException {
    try {
      return ReviewServer.start(side, desk, next, port == null ? 0 : port);
    } catch (BindException e) {
      throw new UsageException(
          "port " + port + " is in use by another program; leave --port out, or give another");
    }
  }

  private static Map<String, Object> next(Ledger ledger, Path file) {
    Map<String, Object> next = new LinkedHashMap<>();
    next.put("ledger", ledger.path().toString());
    next.put("decisions", file.toString());
    next.put(
        "command",
        "groovemend undo "
            + Shell.word(ledger.path().toString())
            + " --decisions "
            + Shell.word(file.toString()));
    return next;
  }

  private void tell(ReviewServer server, Path file) {
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      Map<String, Object> told = new LinkedHashMap<>();
      told.put("review", 1);
      told.put("address", server.address());
      told.put("decisions", file.toString());
      Json.print(out, told);
    } else {
      out.println("Decisions go to " + file);
      out.println("The page, for you alone (whoever has this address may decide):");
      out.println("  " + server.address());
      out.println("End it on the page, or with Ctrl-C.");
      out.flush();
    }
    if (!noBrowser && !Browser.open(server.ticketAddress())) {
      spec.commandLine()
          .getErr()
          .println("groovemend: no browser could be started; open the address yourself.");
    }
  }

  /** Ctrl-C: what was decided is on the disk already; only the lock and scratch files must go. */
  private static void closeAll(ReviewServer server, DecisionDesk desk, ReviewSide side) {
    server.close();
    try {
      side.close();
      desk.close();
    } catch (IOException e) {
      // the process ends; the lock goes with it
    }
  }

  private static void removeHook(Thread hook) {
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException shuttingDown) {
      // the hook is running already
    }
  }
}
