package org.groovemend.signing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.FilePath;
import org.groovemend.sealed.Members;
import org.groovemend.sealed.SealedDocument;
import org.groovemend.sealed.SealedDocumentException;

/**
 * The signatures of one ledger, in the order in which they were given
 * (docs/reference/signatures.md).
 */
public record SignatureFile(List<LedgerSignature> signatures) {

  private static final String FORMAT = "groovemend-signatures";
  private static final long VERSION = 1;
  private static final String LEDGER_END = ".ledger.jsonl";

  public SignatureFile {
    signatures = List.copyOf(signatures);
  }

  /** Nobody has signed yet. */
  public static SignatureFile empty() {
    return new SignatureFile(List.of());
  }

  /** Where the signatures of a ledger lie: beside it, as NAME.signatures.json. */
  public static Path beside(Path ledger) {
    String name = FilePath.name(ledger);
    String stem =
        name.endsWith(LEDGER_END) ? name.substring(0, name.length() - LEDGER_END.length()) : name;
    return ledger.resolveSibling(stem + ".signatures.json");
  }

  /**
   * With one more signature, which covers all that are there.
   *
   * @param ledger that is signed
   * @param decisions that are signed as well, or null
   * @param atUtc ISO 8601 in UTC
   * @throws IllegalArgumentException if a reviewer signs where no operator has, or the name or time
   *     is none, in words
   */
  public SignatureFile sign(
      SealedName ledger,
      SealedName decisions,
      SignatureRole role,
      String name,
      String atUtc,
      SigningKey key) {
    if (role == SignatureRole.REVIEWER && !hasOperator(signatures.size())) {
      throw new IllegalArgumentException(
          "a reviewer's signature covers that of the operator, and no operator has signed "
              + ledger.name()
              + " yet; sign as operator first");
    }
    List<LedgerSignature> all = new ArrayList<>(signatures);
    all.add(
        LedgerSignature.make(
            ledger, decisions, role, name, atUtc, previous(signatures.size()), key));
    return new SignatureFile(all);
  }

  private boolean hasOperator(int before) {
    return signatures.subList(0, before).stream().anyMatch(s -> s.role() == SignatureRole.OPERATOR);
  }

  private String previous(int index) {
    return index == 0 ? null : signatures.get(index - 1).digest();
  }

  /**
   * What is wrong with one of the signatures; nothing if it holds. Whose key it is, and whether the
   * decisions are still the same, are other questions.
   *
   * @param index from 0
   * @param seal of the ledger at hand
   */
  public List<String> faults(int index, String seal) {
    LedgerSignature one = signatures.get(index);
    List<String> faults = new ArrayList<>();
    if (!one.signedByItsKey()) {
      faults.add("its key did not sign this: name, time, role, ledger or signature were altered");
    }
    if (!one.ledger().seal().equals(seal)) {
      faults.add(
          "it is of another ledger, "
              + one.ledger().name()
              + " of fingerprint "
              + Fingerprint.of(one.ledger().seal()));
    }
    String previous = previous(index);
    if (previous == null ? one.previous() != null : !previous.equals(one.previous())) {
      faults.add(
          one.previous() == null
              ? "it was given as the first, but stands behind another"
              : "the signature that stood before it was altered, moved or taken out");
    }
    if (one.role() == SignatureRole.REVIEWER && !hasOperator(index)) {
      faults.add("the operator's signature, which a reviewer signs too, is missing before it");
    }
    return faults;
  }

  /** The file's bytes: canonical JSON with a seal, and LF. */
  public byte[] bytes() {
    Map<String, Object> content = new LinkedHashMap<>();
    content.put("format", FORMAT);
    content.put("version", VERSION);
    content.put("signatures", signatures.stream().map(LedgerSignature::entry).toList());
    return SealedDocument.of(content).bytes();
  }

  /**
   * Reads a file; that it is as it was written says nothing yet about the signatures in it.
   *
   * @throws SealedDocumentException if it is not as it was written, or of a later version
   */
  public static SignatureFile read(Path file) throws IOException {
    return of(SealedDocument.read(file), file.toString());
  }

  static SignatureFile of(SealedDocument document, String name) throws SealedDocumentException {
    document.require(FORMAT, VERSION, "file of signatures", "side.signatures.json", name);
    try {
      Members members = new Members(name, document.content());
      members.text("format");
      members.whole("version");
      List<LedgerSignature> signatures = new ArrayList<>();
      for (Members each : members.objects("signatures")) {
        Members payload = each.object("payload");
        signatures.add(signature(payload, each.text("signature")));
        payload.none();
        each.none();
      }
      members.none();
      return new SignatureFile(signatures);
    } catch (IllegalArgumentException e) {
      throw new SealedDocumentException(name + ": " + e.getMessage() + ".", e);
    }
  }

  private static LedgerSignature signature(Members payload, String signature)
      throws SealedDocumentException {
    if (!payload.text("format").equals(LedgerSignature.FORMAT)
        || payload.whole("version") != LedgerSignature.VERSION) {
      throw new IllegalArgumentException("a signature in it is of a form that is not known");
    }
    Members decisions = payload.objectOrNull("decisions");
    return new LedgerSignature(
        sealed(payload.object("ledger")),
        decisions == null ? null : sealed(decisions),
        SignatureRole.ofKey(payload.text("role")),
        payload.text("name"),
        payload.text("atUtc"),
        payload.textOrNull("previous"),
        new VouchingKey(payload.text("publicKey")),
        signature);
  }

  private static SealedName sealed(Members members) throws SealedDocumentException {
    SealedName name = new SealedName(members.text("name"), members.text("seal"));
    members.none();
    return name;
  }
}
