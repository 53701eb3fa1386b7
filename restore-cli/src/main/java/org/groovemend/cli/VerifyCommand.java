package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.job.deliver.VerifyDelivery;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.proof.VerifySignatures;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.Verifier;
import org.groovemend.signing.Fingerprint;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "verify",
    mixinStandardHelpOptions = true,
    header =
        "Recompute every hash of a ledger or a delivery and its files; say what holds and what does"
            + " not.",
    description = {
      "",
      "The files are looked for beside the ledger. The original need not be at hand: that it can",
      "be rebuilt byte for byte is proved by doing it, without writing it. Given the folder of a",
      "delivery, or the record of one copy, it follows each copy back to its original, link by"
          + " link.",
      "A copy of which edits were taken back ('undo') is followed to its parent, and on to the"
          + " first",
      "treatment: ledgers, decisions and edits must agree.",
      "Signatures beside the ledger are checked too; --trust says whose count.",
      "With --all, everything in a folder is read again: ledgers, their files, deliveries, bags,"
          + " and",
      "what the catalogue of a collection names.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend verify cleaned/side.ledger.jsonl",
      "  groovemend verify recipe-delivery",
      "  groovemend verify recipe-delivery/side.service.flac.json",
      "  groovemend verify side.ledger.jsonl --original /vault/side.wav --json",
      "  groovemend verify undone/side.undo-1.ledger.jsonl --parent cleaned",
      "  groovemend verify side.ledger.jsonl --trust operator.public.pem --require operator",
      "  groovemend verify --all cleaned            a whole store; goes on where it was stopped",
      "",
      "Exit codes: 0 everything that could be checked holds; 5 something does not; 4 no such file."
    })
final class VerifyCommand implements Callable<Integer> {

  private static final int MISMATCHES_SHOWN = 10;

  @Spec private CommandSpec spec;
  @Mixin private LedgerOptions options;
  @Mixin private SignatureOptions signatures;
  @Mixin private StoreOptions whole;

  @Option(
      names = "--original",
      paramLabel = "FILE",
      description = "The transfer. Default: beside the ledger.")
  private Path original;

  @Mixin private ParentOptions parents;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    if (whole.all) {
      if (signatures.given()
          || options.namesFiles()
          || !parents.places().isEmpty()
          || original != null) {
        throw new UsageException(
            "--all checks everything in a folder; options that name files or keys are for one"
                + " ledger");
      }
      return new VerifyStore(options.given(), whole, json, spec.commandLine().getOut()).run();
    }
    whole.requireNone();
    if (VerifyDelivery.takes(options.given())) {
      return delivery();
    }
    VerifySignatures.Wish wish = signatures.wish();
    List<Check> checks =
        new ArrayList<>(Verify.run(options.ledger(), options.files(original), parents.places()));
    String seal = SignatureOptions.seal(checks);
    checks.addAll(VerifySignatures.run(options.ledger(), seal, wish));
    boolean failed = Verify.failed(checks);
    return tell("ledger", checks, verdict(checks, failed), seal);
  }

  private int delivery() throws Exception {
    if (signatures.given()) {
      throw new UsageException(
          "--trust, --require and --fingerprint are for a ledger; give the one in the delivery's"
              + " folder");
    }
    if (options.namesFiles() || !parents.places().isEmpty()) {
      throw new UsageException(
          "--restored, --removed and --parent are for a ledger; the files of a delivery lie in its"
              + " folder");
    }
    List<Check> checks = VerifyDelivery.run(options.given(), original);
    return tell(
        "delivery",
        checks,
        Verify.failed(checks)
            ? "VERIFICATION FAILED: see the lines marked FAILS."
            : "Every copy goes back to its original.",
        null);
  }

  private int tell(String what, List<Check> checks, String verdict, String seal) {
    boolean failed = Verify.failed(checks);
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("verify", 1);
      result.put(what, options.given().toString());
      result.put("holds", !failed);
      result.put("fingerprint", seal == null ? null : Fingerprint.of(seal).text());
      result.put("checks", checks);
      Json.print(out, result);
    } else {
      for (Check check : checks) {
        print(check, out);
      }
      if (what.equals("ledger")
          && checks.stream()
              .anyMatch(
                  check ->
                      check.outcome() == Check.Outcome.NOT_CHECKED
                          && check.words().contains("not at hand"))) {
        out.println(
            "What is not at hand can be named: --original, --restored, --removed, --parent.");
      }
      if (seal != null) {
        out.println("fingerprint " + Fingerprint.of(seal));
      }
      out.println(verdict);
    }
    return failed ? ExitCode.VERIFICATION_FAILED : ExitCode.DONE;
  }

  /** Without the clean copy nothing can fail; that must not read like proof. */
  static String verdict(List<Check> checks, boolean failed) {
    if (failed) {
      return "VERIFICATION FAILED: see the lines marked FAILS.";
    }
    boolean proved =
        checks.stream()
            .anyMatch(
                check ->
                    check.name().equals(Verifier.REVERSAL)
                        && check.outcome() == Check.Outcome.HOLDS);
    return proved
        ? "Everything that could be checked holds."
        : "Everything that could be checked holds, but that is not enough to prove that the"
            + " original can be rebuilt.";
  }

  static void print(Check check, PrintWriter out) {
    String mark =
        switch (check.outcome()) {
          case HOLDS -> "holds       ";
          case FAILS -> "FAILS       ";
          case NOT_CHECKED -> "not checked " + check.name() + ": ";
        };
    out.println(mark + check.words());
    if (check.outcome() == Check.Outcome.FAILS && check.mismatches().isEmpty()) {
      out.println("              expected " + check.expected());
      out.println(
          "              found    "
              + (check.found().isEmpty() ? "nothing that can be read" : check.found()));
    }
    int shown = 0;
    for (Mismatch mismatch : check.mismatches()) {
      if (shown++ == MISMATCHES_SHOWN) {
        out.println("              ... " + (check.mismatchCount() - MISMATCHES_SHOWN) + " more");
        break;
      }
      out.println("              " + mismatch);
    }
  }
}
