package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.job.proof.Revert;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.VerificationException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "revert",
    mixinStandardHelpOptions = true,
    header = "Give the original file back, byte for byte, without the original at hand.",
    description = {
      "",
      "From the clean copy, the ledger and what was removed. The file is written only if its",
      "SHA-256 is that of the original; otherwise nothing is.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend revert cleaned/side.ledger.jsonl --out original.wav",
      "",
      "Exit codes: 0 done; 5 a file is not the one the ledger speaks of; 6 output exists."
    })
final class RevertCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;
  @Mixin private LedgerOptions options;

  @Option(names = "--out", required = true, paramLabel = "FILE", description = "The file to write.")
  private Path out;

  @Option(names = "--replace", description = "Write over FILE if it exists.")
  private boolean replace;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    OutPlace.requireFile(out);
    FileFacts facts = revert();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("revert", 1);
      result.put("file", out.toString());
      result.put("bytes", facts.bytes());
      result.put("sha256", facts.sha256());
      Json.print(spec.commandLine().getOut(), result);
    } else {
      spec.commandLine()
          .getOut()
          .println(
              out
                  + ": "
                  + facts.bytes()
                  + " bytes, SHA-256 "
                  + facts.sha256()
                  + "\nThis is the original "
                  + facts.name()
                  + ", byte for byte.");
    }
    return ExitCode.DONE;
  }

  private FileFacts revert() throws IOException, VerificationException {
    try {
      return Revert.run(options.ledger(), options.files(null), out, replace);
    } catch (InputRejectedException e) {
      throw LedgerOptions.damaged(e, options.ledger());
    }
  }
}
