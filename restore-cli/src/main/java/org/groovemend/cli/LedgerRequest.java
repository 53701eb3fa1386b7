package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Map;
import org.groovemend.audio.FilePath;
import org.groovemend.job.account.Account;
import org.groovemend.signing.Fingerprint;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** A ledger, all that belongs to it, and whose signatures count: for what is told from it. */
final class LedgerRequest {

  @Mixin private LedgerOptions options;

  @Option(
      names = "--original",
      paramLabel = "FILE",
      description = "The transfer. Default: beside the ledger; need not be at hand.")
  private Path original;

  @Mixin private ParentOptions parents;

  @Mixin private SignatureOptions signatures;

  Account.Request request() throws IOException {
    return new Account.Request(
        options.ledger(),
        options.files(original),
        parents.places(),
        signatures.wish(),
        "groovemend " + Version.number(),
        Clock.systemUTC().instant());
  }

  /**
   * Where a page about a ledger goes if nothing is said.
   *
   * @param kind account, report
   */
  static Path beside(Path ledger, String kind) {
    return ledger.resolveSibling(
        FilePath.name(ledger).replaceFirst("\\.ledger\\.jsonl$", "") + "." + kind + ".html");
  }

  /** Tells where a page lies, and the fingerprint of the ledger that it is about. */
  static void tell(CommandSpec spec, boolean json, String kind, Path page, String seal) {
    String fingerprint = Fingerprint.of(seal).text();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put(kind, 1);
      result.put("page", page.toString());
      result.put("fingerprint", fingerprint);
      Json.print(spec.commandLine().getOut(), result);
    } else {
      spec.commandLine().getOut().printf("%-11s  %s%n", kind, page);
      spec.commandLine().getOut().println("fingerprint  " + fingerprint + "  for the sleeve");
    }
  }
}
