package org.groovemend.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.groovemend.audio.FilePath;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.delivery.RenewedFile;
import org.groovemend.ledger.Ledger;
import org.groovemend.sealed.SealedDocumentException;
import org.groovemend.signing.SealedName;
import org.groovemend.signing.SignatureFile;
import org.groovemend.signing.SignatureRole;
import org.groovemend.signing.SigningKey;

/** Puts a signature beside a ledger. */
public final class SignLedger {

  private SignLedger() {}

  /**
   * @param ledger file
   * @param decisions file of decisions that are signed too, or null
   * @param role as what
   * @param name of who signs; may be empty
   * @param now when
   */
  public record Request(
      Path ledger, Path decisions, SignatureRole role, String name, Instant now, SigningKey key) {}

  /**
   * @param file where the signatures lie
   * @param seal of the ledger
   * @param signatures that are in it now
   */
  public record Outcome(Path file, String seal, SignatureFile signatures) {}

  /**
   * Checks the ledger's chain and every signature that is there, adds one and writes the file anew,
   * whole or not at all.
   *
   * @throws org.groovemend.ledger.LedgerDamagedException if the ledger is not as it was written
   * @throws SealedDocumentException if decisions or signatures are not, or a signature that is
   *     there does not hold
   * @throws RequestRefusedException if the decisions are of another ledger or still open, or a
   *     reviewer signs before any operator
   */
  public static Outcome run(Request request) throws IOException {
    Ledger ledger = Ledger.open(request.ledger());
    SealedName name = new SealedName(FilePath.name(request.ledger()), ledger.seal());
    SealedName decisions = request.decisions() == null ? null : decisions(request, ledger);
    Path file = SignatureFile.beside(request.ledger().toAbsolutePath());
    SignatureFile before = Files.exists(file) ? SignatureFile.read(file) : SignatureFile.empty();
    for (int i = 0; i < before.signatures().size(); i++) {
      List<String> faults = before.faults(i, ledger.seal());
      if (!faults.isEmpty()) {
        throw new SealedDocumentException(
            "signature "
                + (i + 1)
                + " in "
                + file
                + " does not hold: "
                + String.join("; ", faults)
                + ". Nothing was signed; 'groovemend verify' tells all of it.");
      }
    }
    SignatureFile after;
    try {
      after =
          before.sign(
              name,
              decisions,
              request.role(),
              request.name(),
              request.now().truncatedTo(ChronoUnit.SECONDS).toString(),
              request.key());
    } catch (IllegalArgumentException e) {
      throw new RequestRefusedException(e.getMessage());
    }
    RenewedFile.write(file, after.bytes());
    return new Outcome(file, ledger.seal(), after);
  }

  private static SealedName decisions(Request request, Ledger ledger) throws IOException {
    DecisionFile decisions = DecisionDocument.read(request.decisions());
    if (!decisions.ledger().seal().equals(ledger.seal())) {
      throw new RequestRefusedException(
          request.decisions()
              + " is about another ledger, "
              + decisions.ledger().name()
              + "; give the decisions about "
              + request.ledger());
    }
    if (decisions.signOff() == null) {
      throw new RequestRefusedException(
          request.decisions()
              + " is not signed off yet, and a signature would not fit it any more afterwards; sign"
              + " the review off first");
    }
    return new SealedName(
        FilePath.name(request.decisions()), DecisionDocument.of(decisions).seal());
  }
}
