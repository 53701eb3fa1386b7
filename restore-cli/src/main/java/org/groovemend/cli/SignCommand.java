package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.job.proof.SignLedger;
import org.groovemend.signing.Fingerprint;
import org.groovemend.signing.KeyFiles;
import org.groovemend.signing.LedgerSignature;
import org.groovemend.signing.SignatureRole;
import org.groovemend.signing.SigningKey;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "sign",
    mixinStandardHelpOptions = true,
    header = "Put a signature beside a ledger, as its operator or as its reviewer.",
    description = {
      "",
      "Writes NAME.signatures.json beside the ledger, which stays as it is. A signature covers the",
      "ledger's seal, and with it every digest in the ledger; the decisions, if they are given; and",
      "every signature that was there before: a reviewer signs what the operator signed.",
      "Look whether everything holds before you sign: groovemend verify.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend sign side.ledger.jsonl --key keys/operator.private.pem --name Quist",
      "  groovemend sign side.ledger.jsonl --key keys/second.private.pem --role reviewer --decisions side.decisions.json",
      "",
      "Exit codes: 0 signed; 2 the decisions are of another ledger, or open; 4 no such file or no",
      "key of this kind; 5 the ledger, the decisions or a signature that is there does not hold."
    })
final class SignCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "LEDGER", description = "Ledger file, NAME.ledger.jsonl.")
  private Path ledger;

  @Option(
      names = "--key",
      required = true,
      paramLabel = "FILE",
      description = "Private key in PEM form, made by 'groovemend key' or brought along.")
  private Path keyFile;

  @Mixin private PassphraseOption passphrase;

  @Option(
      names = "--name",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "Who signs, in words. It is signed too.")
  private String name;

  @Option(
      names = "--role",
      paramLabel = "ROLE",
      defaultValue = "operator",
      description = "operator or reviewer. Default: operator.")
  private SignatureRole role;

  @Option(
      names = "--decisions",
      paramLabel = "FILE",
      description = "Decisions about the edits, signed off, that the signature is to cover too.")
  private Path decisions;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  @Override
  public Integer call() throws Exception {
    LedgerOptions.requireLedger(ledger);
    SigningKey key =
        KeyFiles.readPrivate(keyFile, KeyFiles.encrypted(keyFile) ? passphrase.ask(keyFile) : null);
    SignLedger.Outcome outcome =
        SignLedger.run(
            new SignLedger.Request(
                ledger, decisions, role, name, Clock.systemUTC().instant(), key));
    PrintWriter out = spec.commandLine().getOut();
    Fingerprint fingerprint = Fingerprint.of(outcome.seal());
    if (json) {
      LedgerSignature made =
          outcome.signatures().signatures().get(outcome.signatures().signatures().size() - 1);
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("sign", 1);
      result.put("file", outcome.file().toString());
      result.put("role", role.key());
      result.put("name", made.name());
      result.put("atUtc", made.atUtc());
      result.put("key", key.vouching().fingerprint().text());
      result.put("signatures", outcome.signatures().signatures().size());
      result.put("fingerprint", fingerprint.text());
      Json.print(out, result);
      return ExitCode.DONE;
    }
    out.println("signed as " + role.key() + (name.isEmpty() ? "" : " by " + name));
    out.println("  signatures   " + outcome.file());
    out.println("  key          " + key.vouching().fingerprint());
    out.println("  fingerprint  " + fingerprint + "  of the ledger, for the sleeve");
    Path beside = outcome.decisions();
    if (decisions == null && Files.exists(beside)) {
      out.println(
          "  note: "
              + beside.getFileName()
              + " lies beside the ledger and is not covered; --decisions covers it");
    }
    out.flush();
    return ExitCode.DONE;
  }
}
