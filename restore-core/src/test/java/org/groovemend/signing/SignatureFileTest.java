package org.groovemend.signing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.groovemend.sealed.SealedDocument;
import org.groovemend.sealed.SealedDocumentException;
import org.junit.jupiter.api.Test;

class SignatureFileTest {

  private static final String SEAL = "0123456789abcdef".repeat(4);
  private static final SealedName LEDGER = new SealedName("side.ledger.jsonl", SEAL);
  private static final SealedName DECISIONS =
      new SealedName("side.decisions.json", "fedcba9876543210".repeat(4));
  private static final String AT = "2026-03-01T12:00:00Z";

  private final SigningKey operator = SigningKey.generate();
  private final SigningKey reviewer = SigningKey.generate();

  private SignatureFile both() {
    return SignatureFile.empty()
        .sign(LEDGER, null, SignatureRole.OPERATOR, "Wilma Quist", AT, operator)
        .sign(LEDGER, DECISIONS, SignatureRole.REVIEWER, "Ødön Tarnquill", AT, reviewer);
  }

  private static SignatureFile read(byte[] bytes) throws SealedDocumentException {
    return SignatureFile.of(SealedDocument.parse(bytes, "it"), "it");
  }

  private static List<String> faults(SignatureFile file, String seal) {
    List<String> all = new ArrayList<>();
    for (int i = 0; i < file.signatures().size(); i++) {
      all.addAll(file.faults(i, seal));
    }
    return all;
  }

  private static void assertFault(String words, SignatureFile file) {
    List<String> faults = faults(file, SEAL);
    assertTrue(faults.stream().anyMatch(f -> f.contains(words)), words + " in " + faults);
  }

  @Test
  void whatWasSignedHoldsAndComesBack() throws Exception {
    SignatureFile file = both();
    assertEquals(file, read(file.bytes()));
    assertEquals(List.of(), faults(read(file.bytes()), SEAL));
  }

  @Test
  void everyFlippedBitOfTheFileIsNoticed() {
    byte[] bytes = both().bytes();
    for (int bit = 0; bit < 8 * bytes.length; bit++) {
      byte[] other = bytes.clone();
      other[bit / 8] ^= (byte) (1 << bit % 8);
      assertThrows(SealedDocumentException.class, () -> read(other), "bit " + bit);
    }
    for (int length = 0; length < bytes.length; length++) {
      byte[] shorter = java.util.Arrays.copyOf(bytes, length);
      assertThrows(SealedDocumentException.class, () -> read(shorter), "length " + length);
    }
  }

  /** Who alters the text and computes the seal anew is found out by the signature itself. */
  @Test
  void everyFlippedBitIsNoticedAlsoUnderASealMadeAnew() throws Exception {
    byte[] bytes = both().bytes();
    SignatureFile right = read(bytes);
    int parsed = 0;
    for (int bit = 0; bit < 8 * bytes.length; bit++) {
      byte[] other = bytes.clone();
      other[bit / 8] ^= (byte) (1 << bit % 8);
      SignatureFile forged;
      try {
        forged = resealed(new String(other, StandardCharsets.UTF_8));
      } catch (Exception noLongerADocument) {
        continue;
      }
      if (forged.equals(right)) {
        continue; // the flip was in the old seal, or in what JSON takes for the same
      }
      parsed++;
      assertFalse(faults(forged, SEAL).isEmpty(), "bit " + bit);
    }
    assertTrue(parsed > 1000, "only " + parsed + " forgeries could be tried");
  }

  @SuppressWarnings("unchecked")
  private static SignatureFile resealed(String text) throws Exception {
    var content =
        new com.fasterxml.jackson.databind.ObjectMapper()
            .enable(com.fasterxml.jackson.databind.DeserializationFeature.USE_LONG_FOR_INTS)
            .readValue(text, java.util.Map.class);
    content.remove("seal");
    return SignatureFile.of(SealedDocument.of(content), "it");
  }

  @Test
  void aSignatureOfAnotherLedgerDoesNotCount() {
    assertFalse(faults(both(), "ab".repeat(32)).isEmpty());
    LedgerSignature first = both().signatures().get(0);
    // replayed: everything as it was, but the ledger's seal is put in the place of the old one
    LedgerSignature replayed =
        new LedgerSignature(
            new SealedName(LEDGER.name(), "ab".repeat(32)),
            first.decisions(),
            first.role(),
            first.name(),
            first.atUtc(),
            first.previous(),
            first.key(),
            first.signature());
    List<String> faults = new SignatureFile(List.of(replayed)).faults(0, "ab".repeat(32));
    assertTrue(faults.get(0).contains("its key did not sign this"), faults.toString());
  }

  @Test
  void aSignatureUnderAnotherKeyRoleNameTimeOrDecisionsDoesNotHold() {
    LedgerSignature s = both().signatures().get(0);
    List<LedgerSignature> altered =
        List.of(
            new LedgerSignature(
                s.ledger(), null, s.role(), s.name(), AT, null, reviewer.vouching(), s.signature()),
            new LedgerSignature(
                s.ledger(),
                null,
                SignatureRole.REVIEWER,
                s.name(),
                AT,
                null,
                s.key(),
                s.signature()),
            new LedgerSignature(
                s.ledger(), null, s.role(), "Wilma Quest", AT, null, s.key(), s.signature()),
            new LedgerSignature(
                s.ledger(),
                null,
                s.role(),
                s.name(),
                "2026-03-01T12:00:01Z",
                null,
                s.key(),
                s.signature()),
            new LedgerSignature(
                s.ledger(), DECISIONS, s.role(), s.name(), AT, null, s.key(), s.signature()),
            new LedgerSignature(
                s.ledger(), null, s.role(), s.name(), AT, null, s.key(), s.signature() + "="),
            new LedgerSignature(s.ledger(), null, s.role(), s.name(), AT, null, s.key(), ""),
            new LedgerSignature(
                s.ledger(),
                null,
                s.role(),
                s.name(),
                AT,
                null,
                new VouchingKey("AAAA"),
                s.signature()),
            new LedgerSignature(
                s.ledger(),
                null,
                s.role(),
                s.name(),
                AT,
                null,
                new VouchingKey("%"),
                s.signature()));
    for (LedgerSignature one : altered) {
      assertFault("its key did not sign this", new SignatureFile(List.of(one)));
    }
    assertEquals(List.of(), faults(new SignatureFile(List.of(s)), SEAL));
  }

  @Test
  void swappedRolesAreNoticed() {
    LedgerSignature a = both().signatures().get(0);
    LedgerSignature b = both().signatures().get(1);
    LedgerSignature asReviewer =
        new LedgerSignature(
            a.ledger(),
            a.decisions(),
            b.role(),
            a.name(),
            AT,
            a.previous(),
            a.key(),
            a.signature());
    LedgerSignature asOperator =
        new LedgerSignature(
            b.ledger(),
            b.decisions(),
            a.role(),
            b.name(),
            AT,
            b.previous(),
            b.key(),
            b.signature());
    SignatureFile swapped = new SignatureFile(List.of(asReviewer, asOperator));
    assertFalse(swapped.faults(0, SEAL).isEmpty());
    assertFalse(swapped.faults(1, SEAL).isEmpty());
  }

  @Test
  void removedDoubledAndSwappedSignaturesAreNamed() {
    SignatureFile four = both();
    four = four.sign(LEDGER, null, SignatureRole.OPERATOR, "", AT, operator);
    four = four.sign(LEDGER, null, SignatureRole.REVIEWER, "C", AT, reviewer);
    assertEquals(List.of(), faults(four, SEAL));
    Random random = new Random(3);
    for (int i = 0; i < 4; i++) {
      List<LedgerSignature> doubled = new ArrayList<>(four.signatures());
      doubled.add(random.nextInt(4), doubled.get(i));
      assertFalse(faults(new SignatureFile(doubled), SEAL).isEmpty(), "doubled " + i);
      if (i < 3) {
        List<LedgerSignature> fewer = new ArrayList<>(four.signatures());
        fewer.remove(i);
        assertFalse(faults(new SignatureFile(fewer), SEAL).isEmpty(), "removed " + i);
      }
      for (int j = i + 1; j < 4; j++) {
        List<LedgerSignature> swapped = new ArrayList<>(four.signatures());
        Collections.swap(swapped, i, j);
        assertFalse(faults(new SignatureFile(swapped), SEAL).isEmpty(), i + " and " + j);
      }
    }
    List<LedgerSignature> without = four.signatures().subList(1, 4);
    assertFault("altered, moved or taken out", new SignatureFile(without));
    assertFault("operator's signature", new SignatureFile(four.signatures().subList(1, 2)));
    assertFault(
        "stands behind another",
        new SignatureFile(List.of(four.signatures().get(1), four.signatures().get(0))));
  }

  @Test
  void aReviewerSignsAfterAnOperatorOnly() {
    IllegalArgumentException told =
        assertThrows(
            IllegalArgumentException.class,
            () ->
                SignatureFile.empty().sign(LEDGER, null, SignatureRole.REVIEWER, "", AT, reviewer));
    assertTrue(told.getMessage().contains("sign as operator first"), told.getMessage());
  }

  @Test
  void namesThatDeceiveAndTimesThatAreNoneAreRefused() {
    for (String name : List.of("a\nb", " a", "\u202eabc", "\ud800", "x".repeat(201))) {
      assertThrows(
          IllegalArgumentException.class,
          () ->
              SignatureFile.empty().sign(LEDGER, null, SignatureRole.OPERATOR, name, AT, operator));
    }
    for (String at : List.of("", "yesterday", "2026-03-01T12:00:00+01:00")) {
      assertThrows(
          IllegalArgumentException.class,
          () -> SignatureFile.empty().sign(LEDGER, null, SignatureRole.OPERATOR, "", at, operator));
    }
  }

  @Test
  void laterVersionsAndOtherDocumentsAreToldApart() {
    SealedDocumentException later =
        assertThrows(
            SealedDocumentException.class,
            () ->
                SignatureFile.of(
                    SealedDocument.of(
                        java.util.Map.of("format", "groovemend-signatures", "version", 2L)),
                    "it"));
    assertTrue(later.getMessage().contains("later groovemend"), later.getMessage());
    SealedDocumentException other =
        assertThrows(
            SealedDocumentException.class,
            () ->
                SignatureFile.of(
                    SealedDocument.of(java.util.Map.of("format", "x", "version", 1L)), "it"));
    assertTrue(other.getMessage().contains("no file of signatures"), other.getMessage());
  }
}
