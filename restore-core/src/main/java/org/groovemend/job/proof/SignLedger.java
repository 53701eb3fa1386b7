package org.groovemend.job.proof;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.groovemend.audio.FilePath;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.delivery.FileTurn;
import org.groovemend.delivery.RenewedFile;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.Ledger;
import org.groovemend.sealed.SealedDocumentException;
import org.groovemend.signing.SealedName;
import org.groovemend.signing.SignatureFile;
import org.groovemend.signing.SignatureRole;
import org.groovemend.signing.SigningKey;

/** Puts a signature beside a ledger. */
public final class SignLedger {

  /** How long another signer may take. */
  private static final long PATIENCE_MILLIS = 60_000;

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
   * @param decisions where decisions about the ledger lie, if there are any
   */
  public record Outcome(Path file, String seal, SignatureFile signatures, Path decisions) {}

  /**
   * Checks the ledger's chain and every signature that is there, adds one and writes the file anew,
   * whole or not at all. Of several who sign at once each waits for the other.
   *
   * @throws org.groovemend.ledger.LedgerDamagedException if the ledger is not as it was written
   * @throws SealedDocumentException if decisions or signatures are not, or a signature that is
   *     there does not hold
   * @throws RequestRefusedException if the decisions are of another ledger or still open, or a
   *     reviewer signs before any operator
   */
  public static Outcome run(Request request) throws IOException {
    Ledger ledger = Ledger.open(request.ledger());
    Path file = SignatureFile.beside(request.ledger().toAbsolutePath());
    try (FileTurn turn = FileTurn.take(file, PATIENCE_MILLIS)) {
      if (turn == null) {
        throw new RequestRefusedException(
            "somebody else has been signing in "
                + file
                + " for longer than "
                + PATIENCE_MILLIS / 1000
                + " s, and nothing was signed; wait for them and sign again");
      }
      SignatureFile after = signed(request, ledger, file);
      RenewedFile.write(file, after.bytes());
      return new Outcome(
          file, ledger.seal(), after, file.resolveSibling(DecisionDocument.nameFor(ledger)));
    }
  }

  /** The signatures that are there, and one more. */
  private static SignatureFile signed(Request request, Ledger ledger, Path file)
      throws IOException {
    SealedName name = new SealedName(FilePath.name(request.ledger()), ledger.seal());
    SealedName decisions = request.decisions() == null ? null : decisions(request, ledger);
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
    try {
      return before.sign(
          name,
          decisions,
          request.role(),
          request.name(),
          request.now().truncatedTo(ChronoUnit.SECONDS).toString(),
          request.key());
    } catch (IllegalArgumentException e) {
      throw new RequestRefusedException(e.getMessage());
    }
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
