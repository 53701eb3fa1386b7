package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.groovemend.job.proof.VerifySignatures;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Verifier;
import org.groovemend.signing.Fingerprint;
import org.groovemend.signing.KeyFiles;
import org.groovemend.signing.SignatureRole;
import org.groovemend.signing.VouchingKey;
import picocli.CommandLine.Option;

/** What is asked of the signatures and the fingerprint of a ledger. */
final class SignatureOptions {

  @Option(
      names = "--trust",
      paramLabel = "FILE",
      description = "A public key whose signature counts. May be given again.")
  private List<Path> trusted = List.of();

  @Option(
      names = "--require",
      paramLabel = "ROLE",
      description =
          "Fail unless there is a signature as operator, or reviewer, by a trusted key if any are given. May be given again.")
  private Set<SignatureRole> required = Set.of();

  @Option(
      names = "--fingerprint",
      paramLabel = "TEXT",
      description = "Compare with the fingerprint on the sleeve.")
  private String fingerprint;

  boolean given() {
    return !trusted.isEmpty() || !required.isEmpty() || fingerprint != null;
  }

  /** Told before the work begins if a key or the fingerprint cannot be. */
  VerifySignatures.Wish wish() throws IOException {
    Fingerprint typed =
        fingerprint == null ? null : Usage.check(() -> Fingerprint.parse(fingerprint));
    List<VouchingKey> keys = new ArrayList<>();
    for (Path file : trusted) {
      keys.add(KeyFiles.readPublic(file));
    }
    return new VerifySignatures.Wish(keys, required, typed);
  }

  /** The seal that the checks of a ledger found, or null if it is damaged. */
  static String seal(List<Check> checks) {
    return checks.stream()
        .filter(check -> check.name().equals(Verifier.LEDGER))
        .findFirst()
        .filter(check -> check.outcome() == Check.Outcome.HOLDS)
        .map(Check::found)
        .orElse(null);
  }
}
