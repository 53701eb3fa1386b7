package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.groovemend.job.proof.MakeKey;
import org.groovemend.signing.KeyFiles;
import org.groovemend.signing.VouchingKey;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "key",
    mixinStandardHelpOptions = true,
    header = "Make a pair of keys to sign ledgers with, or tell the fingerprint of one.",
    description = {
      "",
      "NAME.private.pem signs: it stays with its owner, who alone may read it. NAME.public.pem goes",
      "to whoever is to check. Ed25519 (RFC 8032), PKCS#8 and X.509 in PEM: other programs can make",
      "and use such keys too. A key that is there is never written over.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend key --out keys/operator",
      "  groovemend key --out keys/operator --passphrase-file secret.txt",
      "  groovemend key --of received.public.pem     its fingerprint, to compare on the telephone",
      "",
      "Exit codes: 0 done; 2 usage; 4 no key of this kind; 6 a key of that name exists."
    })
final class KeyCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @ArgGroup(exclusive = true, multiplicity = "1")
  private What what;

  @Mixin private PassphraseOption passphrase;

  @Option(names = "--json", description = "Print one JSON object for machines instead of text.")
  private boolean json;

  @SuppressWarnings("unused") // Failures looks for it among the arguments
  @Option(names = "--debug", hidden = true)
  private boolean debug;

  private static final class What {
    @Option(
        names = "--out",
        paramLabel = "NAME",
        description = "Make a pair: writes NAME.private.pem and NAME.public.pem.")
    private Path out;

    @Option(
        names = "--of",
        paramLabel = "FILE",
        description = "Tell the fingerprint of the key in this file; its public half is printed.")
    private Path of;
  }

  @Override
  public Integer call() throws Exception {
    Map<String, Object> files = new LinkedHashMap<>();
    VouchingKey key;
    if (what.out != null) {
      OutPlace.requireFile(what.out);
      MakeKey.Outcome made = MakeKey.run(what.out, passphrase.fromFile());
      files.put("private", made.privateFile().toString());
      files.put("public", made.publicFile().toString());
      key = made.key();
    } else {
      key =
          KeyFiles.isPublic(what.of)
              ? KeyFiles.readPublic(what.of)
              : KeyFiles.readPrivate(
                      what.of, KeyFiles.encrypted(what.of) ? passphrase.ask(what.of) : null)
                  .vouching();
    }
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      Map<String, Object> result = new LinkedHashMap<>();
      result.put("key", 1);
      result.put("files", files);
      result.put("fingerprint", key.fingerprint().text());
      result.put("sha256", key.sha256());
      result.put("publicKey", key.spki());
      Json.print(out, result);
      return ExitCode.DONE;
    }
    if (what.out != null) {
      out.println(
          "private key  " + files.get("private") + "  keep it to yourself, and a copy safe");
      out.println("public key   " + files.get("public") + "  give it to whoever is to check");
    } else {
      out.print(key.pem());
    }
    out.println("fingerprint  " + key.fingerprint());
    out.flush();
    return ExitCode.DONE;
  }
}
