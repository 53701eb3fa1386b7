package org.groovemend.job.proof;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.groovemend.audio.FilePath;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.ledger.Check;
import org.groovemend.sealed.SealedDocumentException;
import org.groovemend.signing.Fingerprint;
import org.groovemend.signing.LedgerSignature;
import org.groovemend.signing.SealedName;
import org.groovemend.signing.SignatureFile;
import org.groovemend.signing.SignatureRole;
import org.groovemend.signing.VouchingKey;

/** Says of every signature of a ledger whether it holds, and whose it is. Reads only. */
public final class VerifySignatures {

  /** The file of signatures is as it was written. */
  public static final String FILE = "signature-file";

  /** One signature. */
  public static final String SIGNATURE = "signature";

  /** The decisions that a signature covers are the ones that are there. */
  public static final String DECISIONS = "signed-decisions";

  /** A trusted key signed, in the role that was asked for. */
  public static final String REQUIRED = "signature-required";

  /** The fingerprint that was given is that of the ledger. */
  public static final String FINGERPRINT = "fingerprint";

  /**
   * What counts.
   *
   * @param trusted whose signatures count; if none are given it stays open whose they are
   * @param required roles in which somebody, of the trusted ones if there are any, must have signed
   * @param fingerprint that was written down somewhere else, or null
   */
  public record Wish(
      List<VouchingKey> trusted, Set<SignatureRole> required, Fingerprint fingerprint) {

    /** Nothing in particular. */
    public static final Wish NONE = new Wish(List.of(), Set.of(), null);

    public Wish {
      trusted = List.copyOf(trusted);
      required = Set.copyOf(required);
    }

    boolean any() {
      return !trusted.isEmpty() || !required.isEmpty();
    }
  }

  private final Path ledger;
  private final String seal;
  private final Wish wish;
  private final List<Check> checks = new ArrayList<>();
  private final Set<SignatureRole> signed = new TreeSet<>();

  private VerifySignatures(Path ledger, String seal, Wish wish) {
    this.ledger = ledger;
    this.seal = seal;
    this.wish = wish;
  }

  /**
   * Checks what lies beside a ledger.
   *
   * @param seal of the ledger, or null if it is damaged
   * @return nothing if there are no signatures and nothing was wished for
   */
  public static List<Check> run(Path ledger, String seal, Wish wish) throws IOException {
    VerifySignatures verify = new VerifySignatures(ledger.toAbsolutePath(), seal, wish);
    verify.checkFingerprint();
    verify.checkFile();
    return verify.checks;
  }

  private void checkFingerprint() {
    if (wish.fingerprint() == null) {
      return;
    }
    if (seal == null) {
      checks.add(Check.notChecked(FINGERPRINT, "The ledger is damaged and has no fingerprint."));
      return;
    }
    String given = wish.fingerprint().text();
    String found = Fingerprint.of(seal).text();
    checks.add(
        given.equals(found)
            ? Check.holds(FINGERPRINT, found, "The fingerprint is that of this ledger.")
            : Check.fails(
                FINGERPRINT,
                given,
                found,
                "The fingerprint is not that of this ledger: it is another one, or was made anew."));
  }

  private void checkFile() throws IOException {
    Path file = SignatureFile.beside(ledger);
    String name = FilePath.name(file);
    if (!Files.exists(file)) {
      if (wish.any()) {
        checks.add(
            Check.fails(
                REQUIRED,
                "a signature",
                "none: there is no file " + name,
                "Nobody has signed this ledger, or the file of signatures was taken away."));
      }
      return;
    }
    if (seal == null) {
      checks.add(
          Check.notChecked(SIGNATURE, "The ledger is damaged; no signature can stand for it."));
      return;
    }
    SignatureFile signatures;
    try {
      signatures = SignatureFile.read(file);
    } catch (SealedDocumentException e) {
      checks.add(Check.fails(FILE, "signatures as they were written", "", e.getMessage()));
      return;
    }
    checks.add(Check.holds(FILE, "", name + " is as it was written."));
    for (int i = 0; i < signatures.signatures().size(); i++) {
      check(signatures, i);
    }
    checkRequired();
  }

  private void check(SignatureFile file, int index) throws IOException {
    LedgerSignature one = file.signatures().get(index);
    String who = who(one);
    List<String> faults = file.faults(index, seal);
    if (!faults.isEmpty()) {
      checks.add(
          Check.fails(
              SIGNATURE,
              "a signature of this ledger",
              "one by the key " + one.key().spki(),
              who + ": " + String.join("; ", faults) + "."));
      return;
    }
    String key = one.key().fingerprint().text();
    boolean known = wish.trusted().contains(one.key());
    if (known || wish.trusted().isEmpty()) {
      signed.add(one.role());
    }
    checks.add(
        known
            ? Check.holds(SIGNATURE, key, who + " is there and holds; its key is trusted.")
            : Check.notChecked(
                SIGNATURE,
                who
                    + " fits this ledger, but is by an unknown key, "
                    + key
                    + "; --trust says whose keys count."));
    if (one.decisions() != null) {
      checkDecisions(who, one.decisions());
    }
  }

  private static String who(LedgerSignature one) {
    return "The signature of the "
        + one.role().key()
        + (one.name().isEmpty() ? "" : " \"" + one.name() + "\"")
        + ", "
        + one.atUtc()
        + ",";
  }

  private void checkDecisions(String who, SealedName decisions) throws IOException {
    Path file = ledger.resolveSibling(decisions.name());
    // a name that leads elsewhere is not followed
    boolean plain = decisions.name().equals(String.valueOf(file.getFileName()));
    try {
      if (!plain) {
        throw new NoSuchFileException(decisions.name());
      }
      String found = DecisionDocument.of(DecisionDocument.read(file)).seal();
      checks.add(
          found.equals(decisions.seal())
              ? Check.holds(
                  DECISIONS, found, decisions.name() + " is the one that was signed with it.")
              : Check.fails(
                  DECISIONS,
                  decisions.seal(),
                  found,
                  who + " covers other decisions than " + decisions.name() + " holds now."));
    } catch (NoSuchFileException e) {
      checks.add(
          Check.notChecked(
              DECISIONS, "The decisions " + decisions.name() + " are not beside the ledger."));
    } catch (SealedDocumentException e) {
      checks.add(Check.fails(DECISIONS, decisions.seal(), "", e.getMessage()));
    }
  }

  private void checkRequired() {
    String whose = wish.trusted().isEmpty() ? "Nobody" : "None of the trusted keys";
    if (!wish.trusted().isEmpty() && wish.required().isEmpty() && signed.isEmpty()) {
      checks.add(
          Check.fails(
              REQUIRED, "a signature by a trusted key", "none", whose + " signed this ledger."));
    }
    for (SignatureRole role : new TreeSet<>(wish.required())) {
      checks.add(
          signed.contains(role)
              ? Check.holds(REQUIRED, role.key(), "There is a signature as " + role.key() + ".")
              : Check.fails(
                  REQUIRED,
                  "a signature as " + role.key(),
                  "none",
                  whose + " signed this ledger as " + role.key() + ", or it was taken away."));
    }
  }
}
