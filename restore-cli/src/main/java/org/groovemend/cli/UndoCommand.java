package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.chain.Progress;
import org.groovemend.job.undo.Undo;
import org.groovemend.job.undo.UndoCounts;
import org.groovemend.job.undo.UndoOutcome;
import org.groovemend.job.undo.UndoRequest;
import org.groovemend.ledger.VerificationException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Takes edits of a copy back. */
@Command(
    name = "undo",
    mixinStandardHelpOptions = true,
    header = "Take some edits back: a new copy with a ledger of its own, which names its parent.",
    description = {
      "",
      "Nothing is altered. Where an edit is taken back, the original's samples stand again; every",
      "other repair takes away exactly what it took away before. An edit is meant if it meets every",
      "kind of option that is given (--edit, --range, --stage, --channel, --below); of several values",
      "of one kind, any will do. With --decisions a reviewed file says which. For NAME.ledger.jsonl",
      "this writes, whole or not at all:",
      "  NAME.undo-1.restored.wav    the new copy",
      "  NAME.undo-1.ledger.jsonl    the edits that stay, and which ledger it descends from",
      "  NAME.undo-1.decisions.json  which edits were taken back, by whom and why",
      "  NAME.undo-1.removed.flac    what was taken away, when a stage may touch any sample",
      "If such a stage ran (noise, say), or edits overlap, the treatment is run again from the rebuilt",
      "original, and nothing is written unless it is proved to be the same treatment. To do an edit",
      "again, take the others back from the parent.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend undo side.ledger.jsonl --edit 17 --why castanet",
      "  groovemend undo side.ledger.jsonl --range 1:02.5-1:03 --stage clicks --channel left",
      "  groovemend undo side.ledger.jsonl --below 1.5 --dry-run      how many would that be?",
      "  groovemend undo side.ledger.jsonl --decisions side.decisions.json --out gentler",
      "  groovemend verify gentler/side.undo-1.ledger.jsonl --parent side.ledger.jsonl",
      "  groovemend report gentler/side.undo-1.ledger.jsonl      a page of the new copy",
      "",
      "Exit codes: 0 done; 2 usage, or no edit is meant; 5 a file is not the one the ledger speaks of,",
      "or the treatment cannot be repeated; 6 output exists."
    })
final class UndoCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;
  @Mixin private LedgerOptions options;
  @Mixin private ParentOptions parents;
  @Mixin private EditsWanted wanted;

  @Option(
      names = "--decisions",
      paramLabel = "FILE",
      description = "A file of decisions about this ledger, in place of the options above.")
  private Path decisions;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for the new copy; made if missing. Default: beside the ledger.")
  private Path out;

  @Option(
      names = "--name",
      paramLabel = "NAME",
      description = "Name of the new copy's files. Default: NAME.undo-1, of that NAME.undo-2 ...")
  private String name;

  @Option(names = "--replace", description = "Write over files of that name.")
  private boolean replace;

  @Option(names = "--dry-run", description = "Say what would be taken back and write nothing.")
  private boolean dryRun;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    if (decisions != null && wanted.any()) {
      throw new UsageException(
          "--decisions says which edits are meant, by whom and why; leave out the other options, or it");
    }
    if (decisions == null && wanted.choice().isEmpty()) {
      throw new UsageException(
          "say which edits: --edit, --range, --stage, --channel, --below, or a file with --decisions");
    }
    if (out != null) {
      OutPlace.requireFolder(out);
    }
    UndoRequest request =
        new UndoRequest(
            options.ledger(),
            options.files(null),
            parents.places(),
            decisions,
            decisions == null ? wanted.choice() : null,
            out,
            name,
            replace,
            Version.number(),
            Clock.systemUTC().instant());
    return dryRun ? count(request) : undo(request);
  }

  private int count(UndoRequest request) throws IOException {
    UndoCounts counts = Undo.count(request);
    if (common.json()) {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("undo", 1);
      map.put("dryRun", true);
      map.putAll(asMap(counts));
      Json.print(spec.commandLine().getOut(), map);
    } else {
      print(counts, "would be taken back");
      spec.commandLine()
          .getOut()
          .println(
              counts.replay()
                  ? "The treatment would be run again. Nothing was written."
                  : "The original's samples would be put back. Nothing was written.");
    }
    return ExitCode.DONE;
  }

  private int undo(UndoRequest request) throws IOException, VerificationException {
    Progress bar = common.progress(Usage.fileName(request.ledger()));
    try (Hands hands = new Hands(common.threads())) {
      UndoOutcome outcome = Undo.run(request, hands.crew(), hands.watching(bar));
      ProgressBar.clear(bar);
      if (common.json()) {
        Json.print(spec.commandLine().getOut(), asMap(outcome));
      } else {
        print(outcome);
      }
      return ExitCode.DONE;
    } catch (InputRejectedException e) {
      throw LedgerOptions.damaged(e, request.ledger());
    } finally {
      ProgressBar.clear(bar);
    }
  }

  private static Map<String, Object> asMap(UndoCounts counts) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("edits", counts.edits());
    map.put("undone", counts.undone());
    map.put("undoneByStage", counts.undoneByStage());
    map.put("keptByStage", counts.keptByStage());
    map.put("leftToAPerson", counts.asked());
    map.put("signedOffBy", counts.signedOffBy());
    map.put("runAgain", counts.replay());
    return map;
  }

  private static Map<String, Object> asMap(UndoOutcome outcome) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("undo", 1);
    map.put("dryRun", false);
    map.putAll(asMap(outcome.counts()));
    Map<String, Object> files = new LinkedHashMap<>();
    files.put("restored", outcome.restoredFile().toString());
    files.put("ledger", outcome.ledgerFile().toString());
    files.put("removed", outcome.removedFile() == null ? null : outcome.removedFile().toString());
    files.put("decisions", outcome.decisionsFile().toString());
    map.put("files", files);
    map.put("seal", outcome.seal());
    map.put("changedSamples", outcome.changedSamples());
    map.put("clippedSamples", outcome.clippedSamples());
    map.put("remarks", outcome.remarks());
    return map;
  }

  private void print(UndoCounts counts, String done) {
    PrintWriter text = spec.commandLine().getOut();
    text.println(counts.undone() + " of " + counts.edits() + " edits " + done);
    counts.undoneByStage().forEach((stage, n) -> text.println("  " + stage + ": " + n));
    if (counts.asked() > 0) {
      text.println("  " + counts.asked() + " left to a person stay until decided");
    }
    if (counts.signedOffBy() != null) {
      text.println("  signed off by " + counts.signedOffBy());
    } else if (decisions != null) {
      text.println("  note: nobody has signed these decisions off yet");
    }
  }

  private void print(UndoOutcome outcome) {
    print(outcome.counts(), "taken back");
    PrintWriter text = spec.commandLine().getOut();
    if (outcome.clippedSamples() > 0) {
      text.println("  note: " + outcome.clippedSamples() + " samples were limited to full scale");
    }
    text.println("  new copy    " + outcome.restoredFile());
    if (outcome.removedFile() != null) {
      text.println("  removed     " + outcome.removedFile());
    }
    text.println("  ledger      " + outcome.ledgerFile());
    text.println("  decisions   " + outcome.decisionsFile());
    text.println("  its page:   groovemend report " + Shell.word(outcome.ledgerFile().toString()));
    text.flush();
  }
}
