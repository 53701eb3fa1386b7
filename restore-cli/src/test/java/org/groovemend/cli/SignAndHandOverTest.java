package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.SchemaFactory;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.LedgerName;
import org.groovemend.decisions.SignOff;
import org.groovemend.ledger.Ledger;
import org.groovemend.signing.Fingerprint;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Keys, signatures, fingerprint, account, records and bag, as a person asks for them. */
@Tag("long")
class SignAndHandOverTest {

  private static final String LEDGER = "side.ledger.jsonl";

  @TempDir private static Path made;

  @TempDir private Path folder;
  private Path ledger;
  private Path operator;
  private Path operatorOpen;
  private Path reviewer;
  private Path reviewerOpen;

  @BeforeAll
  static void restore() throws IOException {
    SmallSide.write(made.resolve("side.wav"), 5);
    CommandRun run = CommandRun.of("restore", made.resolve("side.wav"), "--quiet", "--no-clips");
    assertEquals(0, run.code(), run.err());
    String print = Fingerprint.of(Ledger.open(made.resolve(LEDGER)).seal()).text();
    assertTrue(run.out().contains("fingerprint " + print), run.out());
    assertTrue(Files.readString(made.resolve("side.report.html")).contains(print));
    CommandRun repairs =
        CommandRun.of(
            "restore",
            made.resolve("side.wav"),
            "--quiet",
            "--no-clips",
            "--stages",
            "clicks",
            "--out",
            made.resolve("other"));
    assertEquals(0, repairs.code(), repairs.err());
    for (String name : List.of("operator", "reviewer")) {
      CommandRun key = CommandRun.of("key", "--out", made.resolve(name));
      assertEquals(0, key.code(), key.err());
    }
  }

  @BeforeEach
  void copy() throws IOException {
    try (Stream<Path> files = Files.list(made)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
    ledger = folder.resolve(LEDGER);
    operator = folder.resolve("operator.private.pem");
    operatorOpen = folder.resolve("operator.public.pem");
    reviewer = folder.resolve("reviewer.private.pem");
    reviewerOpen = folder.resolve("reviewer.public.pem");
  }

  private static CommandRun good(Object... args) {
    CommandRun run = CommandRun.of(args);
    assertEquals(0, run.code(), run.err() + run.out());
    return run;
  }

  private static void refused(int code, String words, Object... args) {
    CommandRun run = CommandRun.of(args);
    assertEquals(code, run.code(), run.err() + run.out());
    assertTrue((run.err() + run.out()).contains(words), run.err() + run.out());
    assertFalse(run.err().contains("fault of groovemend"), run.err());
  }

  private void signBoth() {
    good("sign", ledger, "--key", operator, "--name", "Wilma Quist");
    good("sign", ledger, "--key", reviewer, "--role", "reviewer", "--name", "Second Ear");
  }

  private String fingerprint() throws IOException {
    return Fingerprint.of(Ledger.open(ledger).seal()).text();
  }

  @Test
  void thePrivateKeyIsForItsOwnerAlone() throws IOException {
    if (Files.getFileStore(made).supportsFileAttributeView("posix")) {
      assertEquals(
          "rw-------",
          PosixFilePermissions.toString(
              Files.getPosixFilePermissions(made.resolve("operator.private.pem"))));
    }
    refused(6, "exists already", "key", "--out", made.resolve("operator"));
    String ofPrivate = good("key", "--of", operator).out();
    assertEquals(ofPrivate, good("key", "--of", operatorOpen).out());
    assertTrue(ofPrivate.startsWith(Files.readString(operatorOpen)), ofPrivate);
  }

  @Test
  void signaturesHoldAndAreTold() throws IOException {
    signBoth();
    CommandRun run =
        good(
            "verify",
            ledger,
            "--trust",
            operatorOpen,
            "--trust",
            reviewerOpen,
            "--require",
            "operator",
            "--require",
            "reviewer",
            "--fingerprint",
            fingerprint().toLowerCase(Locale.ROOT));
    assertTrue(run.out().contains("operator \"Wilma Quist\""), run.out());
    assertTrue(run.out().contains("fingerprint " + fingerprint()), run.out());
    CommandRun unknown = good("verify", ledger);
    assertTrue(unknown.out().contains("by an unknown key"), unknown.out());
    JsonNode json = new ObjectMapper().readTree(good("verify", ledger, "--json").out());
    assertEquals(fingerprint(), json.path("fingerprint").asText());
  }

  @Test
  void whatIsMissingOfSignaturesIsNamed() throws IOException {
    refused(5, "Nobody has signed", "verify", ledger, "--trust", operatorOpen);
    good("sign", ledger, "--key", operator);
    refused(5, "None of the trusted keys signed", "verify", ledger, "--trust", reviewerOpen);
    refused(5, "as reviewer, or it was taken away", "verify", ledger, "--require", "reviewer");
    good("verify", ledger, "--require", "operator");
  }

  @Test
  void aSignatureOfAnotherLedgerIsNamed() throws IOException {
    signBoth();
    Path other = made.resolve("other").resolve(LEDGER);
    Path strange = folder.resolve("strange");
    Files.createDirectories(strange);
    Files.copy(other, strange.resolve(LEDGER));
    Files.copy(folder.resolve("side.signatures.json"), strange.resolve("side.signatures.json"));
    refused(5, "it is of another ledger", "verify", strange.resolve(LEDGER));
    refused(5, "it is of another ledger", "sign", strange.resolve(LEDGER), "--key", operator);
    refused(
        5,
        "not that of this ledger",
        "verify",
        strange.resolve(LEDGER),
        "--fingerprint",
        fingerprint());
  }

  @Test
  void alteredSignaturesAndDamagedLedgersAreNamed() throws IOException {
    signBoth();
    Path file = folder.resolve("side.signatures.json");
    String right = Files.readString(file);
    Files.writeString(file, right.replace("Wilma", "Wilda"));
    refused(5, "not as it was written", "verify", ledger);
    refused(5, "not as it was written", "sign", ledger, "--key", operator);
    Files.writeString(file, right.substring(0, right.length() / 2));
    refused(5, "cut short", "verify", ledger);
    Files.writeString(file, right);
    byte[] bytes = Files.readAllBytes(ledger);
    Files.write(ledger, java.util.Arrays.copyOf(bytes, bytes.length - 40));
    refused(5, "no signature can stand for it", "verify", ledger);
    refused(5, "line", "sign", ledger, "--key", operator);
    refused(5, "does not hold", "account", ledger, "--quiet");
    refused(5, "", "records", ledger, "--out", folder.resolve("r"), "--quiet");
    assertFalse(Files.exists(folder.resolve("r")));
  }

  @Test
  void decisionsAreSignedWithTheLedger() throws IOException {
    Path decisions = folder.resolve("side.decisions.json");
    DecisionFile open = DecisionFile.empty(LedgerName.of(Ledger.open(ledger)), "Second Ear");
    Files.write(decisions, DecisionDocument.of(open).bytes());
    good("sign", ledger, "--key", operator);
    refused(
        2,
        "not signed off yet",
        "sign",
        ledger,
        "--key",
        reviewer,
        "--role",
        "reviewer",
        "--decisions",
        decisions);
    String at = Instant.parse("2026-03-01T12:00:00Z").toString();
    Files.write(decisions, DecisionDocument.of(open.signed(new SignOff("Second Ear", at))).bytes());
    CommandRun without = good("sign", ledger, "--key", operator);
    assertTrue(without.out().contains("is not covered"), without.out());
    good("sign", ledger, "--key", reviewer, "--role", "reviewer", "--decisions", decisions);
    assertTrue(good("verify", ledger).out().contains("the one that was signed with it"));
    Files.write(decisions, DecisionDocument.of(open.signed(new SignOff("Somebody", at))).bytes());
    refused(5, "covers other decisions", "verify", ledger);
    Files.delete(decisions);
    assertTrue(good("verify", ledger).out().contains("are not beside the ledger"));
    DecisionFile others =
        DecisionFile.empty(LedgerName.of(Ledger.open(made.resolve("other").resolve(LEDGER))), "");
    Files.write(decisions, DecisionDocument.of(others.signed(new SignOff("S", at))).bytes());
    refused(2, "about another ledger", "sign", ledger, "--key", operator, "--decisions", decisions);
  }

  @Test
  void badInputsGetOneSentence() throws IOException {
    refused(2, "sign as operator first", "sign", ledger, "--key", reviewer, "--role", "reviewer");
    refused(2, "no blanks around it", "sign", ledger, "--key", operator, "--name", " x");
    refused(4, "public key", "sign", ledger, "--key", operatorOpen);
    refused(4, "private key", "verify", ledger, "--trust", operator);
    refused(4, "no such file", "sign", ledger, "--key", folder.resolve("none.pem"));
    refused(4, "no such file", "sign", folder.resolve("none"), "--key", operator);
    refused(2, "24 characters", "verify", ledger, "--fingerprint", "abc");
    refused(2, "Missing required argument", "key");
    Path secret = Files.writeString(folder.resolve("secret"), "seven ferries\n");
    good("key", "--out", folder.resolve("locked"), "--passphrase-file", secret);
    Path locked = folder.resolve("locked.private.pem");
    refused(4, "encrypted", "sign", ledger, "--key", locked);
    Path wrong = Files.writeString(folder.resolve("wrong"), "eight ferries\n");
    refused(4, "cannot be decrypted", "sign", ledger, "--key", locked, "--passphrase-file", wrong);
    good("sign", ledger, "--key", locked, "--passphrase-file", secret);
    Path empty = Files.writeString(folder.resolve("empty"), "\n");
    refused(4, "printable ASCII", "sign", ledger, "--key", locked, "--passphrase-file", empty);
  }

  @Test
  void theAccountSaysWhatAPersonAsks() throws IOException {
    signBoth();
    good("account", ledger, "--quiet", "--trust", operatorOpen);
    String page = Files.readString(folder.resolve("side.account.html"));
    for (String words :
        List.of(
            "What was done",
            "How much",
            "What was left alone",
            "Doubts",
            "Can it be undone?",
            "Yes. From the clean copy",
            "Wilma Quist signed as operator",
            "named as trusted",
            "whose key it is was not checked",
            fingerprint(),
            "Read and accepted by",
            "Ticks and pops",
            "Hiss")) {
      assertTrue(page.contains(words), words);
    }
    for (String jargon : List.of("dBFS", "lsar", "autoregressive", "SHA-256", "decibans")) {
      assertFalse(page.contains(jargon), jargon);
    }
    assertEquals(2, page.split("<img ").length - 1, "pictures");
    assertFalse(page.contains("src=\"http"), "fetches nothing");
    refused(6, "exists already", "account", ledger, "--quiet");
    good("account", ledger, "--quiet", "--replace");
    refused(2, "", "account", ledger, "--out", ledger, "--replace", "--quiet");
  }

  @Test
  void whatBelongsToALedgerIsNotWrittenOver() throws IOException {
    signBoth();
    for (String name : List.of("side.wav", "side.restored.wav", "side.signatures.json")) {
      Path file = folder.resolve(name);
      byte[] was = Files.readAllBytes(file);
      refused(2, "", "account", ledger, "--out", file, "--replace", "--quiet");
      refused(2, "", "report", ledger, "--out", file, "--replace", "--quiet");
      assertTrue(java.util.Arrays.equals(was, Files.readAllBytes(file)), name);
    }
  }

  @Test
  void theAccountOfMissingFilesClaimsNothing() throws IOException {
    Files.delete(folder.resolve("side.restored.wav"));
    Files.delete(folder.resolve("side.wav"));
    good("account", ledger, "--quiet");
    String page = Files.readString(folder.resolve("side.account.html"));
    assertTrue(page.contains("It could not be tried"), page);
    assertFalse(page.contains("byte for byte, without the original at hand"), page);
    assertEquals(1, page.split("<img ").length - 1, "pictures");
  }

  @Test
  void theAccountOfRepairsSaysThatTheRestIsTheTransfer() throws IOException {
    Path repairs = made.resolve("other").resolve(LEDGER);
    Path page = folder.resolve("page.html");
    good("account", repairs, "--original", made.resolve("side.wav"), "--out", page, "--quiet");
    assertTrue(Files.readString(page).contains("sample for sample (checked just now)"));
  }

  @Test
  void recordsAreWrittenAndKeepTheirRules() throws Exception {
    signBoth();
    Path out = folder.resolve("records");
    good("records", ledger, "--out", out, "--quiet");
    Path premis = out.resolve("side.premis.xml");
    SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
        .newSchema(
            Path.of(System.getProperty("basedir", "."), "../docs/reference/premis-3-subset.xsd")
                .toFile())
        .newValidator()
        .validate(new StreamSource(premis.toFile()));
    String xml = Files.readString(premis);
    for (String words :
        List.of(
            "side.wav",
            "side.restored.wav",
            "side.removed.flac",
            LEDGER,
            "side.signatures.json",
            "digital signature generation",
            "fixity check",
            "Wilma Quist")) {
      assertTrue(xml.contains(words), words);
    }
    assertFalse(xml.contains("<eventType>capture"), "nobody told when the disc was played");
    List<String> edits = Files.readAllLines(out.resolve("side.edits.csv"));
    assertEquals(Ledger.open(ledger).totals().edits(), edits.size() - 1);
    assertTrue(Files.exists(out.resolve("side.technical.xml")));
    assertTrue(Files.exists(out.resolve("side.account.html")));
    refused(6, "exists already", "records", ledger, "--out", out, "--quiet");
  }

  /** The level of a change, from the samples of the two files. */
  @Test
  void editsTellTheLevelOfTheChange() throws Exception {
    Path out = folder.resolve("records");
    good("records", ledger, "--out", out, "--quiet");
    String[] head = Files.readAllLines(out.resolve("side.edits.csv")).get(0).split(",");
    String[] first = Files.readAllLines(out.resolve("side.edits.csv")).get(1).split(",");
    int start = Integer.parseInt(first[0]);
    int end = Integer.parseInt(first[1]);
    int channel = Integer.parseInt(first[2]);
    double[] before = SoundOf.file(made.resolve("side.wav"))[channel];
    double[] after = SoundOf.file(made.resolve("side.restored.wav"))[channel];
    double peak = 0;
    for (int frame = start; frame < end; frame++) {
      double change = before[frame] - after[frame];
      peak = Math.max(peak, Math.abs(change));
    }
    assertEquals("change_peak_dbfs", head[17]);
    assertEquals(20 * Math.log10(peak), Double.parseDouble(first[17]), 0.006);
    long millis = start * 1000L / SmallSide.RATE;
    assertEquals(
        String.format(Locale.ROOT, "00:00:%02d.%03d", millis / 1000, millis % 1000), first[12]);
    assertEquals(
        Double.parseDouble(first[4]) - Double.parseDouble(first[5]),
        Double.parseDouble(first[15]),
        1e-12);
    String plain = good("edits", ledger, "--csv").out();
    assertTrue(
        Files.readString(out.resolve("side.edits.csv"))
            .startsWith(plain.lines().findFirst().orElseThrow()));
  }

  /** A copy with an edit taken back, in another folder; its ledger. */
  private Path undone() {
    Path out = folder.resolve("gentler");
    good("undo", ledger, "--edit", "1", "--why", "a drum", "--out", out, "--quiet");
    return out.resolve("side.undo-1.ledger.jsonl");
  }

  @Test
  void accountAndRecordsOfACopyWithEditsTakenBackFollowItsParent() throws Exception {
    Path child = undone();
    Path out = folder.resolve("records");
    good("records", child, "--out", out, "--quiet");
    String page = Files.readString(out.resolve("side.undo-1.account.html"));
    assertTrue(page.contains("was checked from ledger to ledger"), page);
    Path premis = out.resolve("side.undo-1.premis.xml");
    requirePremis(premis);
    String xml = Files.readString(premis);
    assertTrue(xml.contains("parent/" + LEDGER), xml);
    assertTrue(xml.contains(org.groovemend.ledger.Sha256.of(ledger)), xml);

    // the parent moves: then it must be said where it is
    Path elsewhere = Files.createDirectory(folder.resolve("vault"));
    Files.move(ledger, elsewhere.resolve(LEDGER));
    good("account", child, "--quiet");
    String open = Files.readString(child.resolveSibling("side.undo-1.account.html"));
    assertTrue(open.contains("could not be checked in full"), open);
    good("account", child, "--quiet", "--replace", "--parent", elsewhere);
    String told = Files.readString(child.resolveSibling("side.undo-1.account.html"));
    assertTrue(told.contains("was checked from ledger to ledger"), told);
    Path without = folder.resolve("without");
    good("records", child, "--out", without, "--quiet");
    requirePremis(without.resolve("side.undo-1.premis.xml"));
    assertFalse(
        Files.readString(without.resolve("side.undo-1.premis.xml")).contains("parent/" + LEDGER));

    // another ledger in its place
    Files.copy(child, ledger);
    refused(5, "does not hold", "account", child, "--quiet", "--replace");
    refused(5, "does not hold", "records", child, "--out", folder.resolve("r"), "--quiet");
  }

  private static void requirePremis(Path premis) throws Exception {
    SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
        .newSchema(
            Path.of(System.getProperty("basedir", "."), "../docs/reference/premis-3-subset.xsd")
                .toFile())
        .newValidator()
        .validate(new StreamSource(premis.toFile()));
  }

  @Test
  void aBagOfACopyWithEditsTakenBackProvesItsDescentByItself() throws Exception {
    good("sign", ledger, "--key", operator, "--name", "Wilma Quist");
    Path child = undone();
    Path again = folder.resolve("gentlest");
    good("undo", child, "--edit", "2", "--out", again, "--name", "side", "--quiet");
    Path grandchild = again.resolve(LEDGER);
    Path bag = folder.resolve("hand-over");
    good("records", grandchild, "--out", bag, "--bag", "--quiet");
    // alone in the world
    Path far = Files.createTempDirectory(made, "far").resolve("bag");
    Files.move(bag, far);
    good("bag", far, "--quiet");
    Path data = far.resolve("data");
    CommandRun run = good("verify", data.resolve(LEDGER), "--json");
    JsonNode checks = new ObjectMapper().readTree(run.out()).path("checks");
    long descent = 0;
    for (JsonNode check : checks) {
      if (check.path("name").asText().startsWith("parent-")) {
        descent++;
        assertEquals("HOLDS", check.path("outcome").asText(), check.toString());
      }
    }
    assertEquals(10, descent, run.out());
    for (String name :
        List.of(
            "side.decisions.json",
            "parent/side.undo-1.ledger.jsonl",
            "parent/side.undo-1.decisions.json",
            "parent/side.undo-1.removed.flac",
            "parent/parent/side.ledger.jsonl",
            "parent/parent/side.signatures.json",
            "parent/parent/side.removed.flac")) {
      assertTrue(Files.exists(data.resolve(name)), name);
    }
    Files.delete(ledger);
    Path none = folder.resolve("none");
    refused(2, "--parent", "records", grandchild, "--out", none, "--bag", "--quiet");
    assertFalse(Files.exists(none));
  }

  @Test
  void aBagHoldsEverythingAlsoTheRebuiltOriginal() throws IOException {
    signBoth();
    Files.delete(folder.resolve("side.wav"));
    Path bag = folder.resolve("hand-over");
    CommandRun run = good("records", ledger, "--out", bag, "--bag", "--quiet");
    assertTrue(run.out().contains("was rebuilt, byte for byte"), run.out());
    assertEquals(
        -1, Files.mismatch(made.resolve("side.wav"), bag.resolve("data").resolve("side.wav")));
    good("bag", bag, "--quiet");
    good("verify", bag.resolve("data").resolve(LEDGER), "--trust", operatorOpen);
    for (String name :
        List.of(
            "side.report.html",
            "side.signatures.json",
            "side.premis.xml",
            "side.technical.xml",
            "side.edits.csv",
            "side.account.html",
            "side.removed.flac",
            "side.restored.wav")) {
      assertTrue(Files.exists(bag.resolve("data").resolve(name)), name);
    }
    refused(6, "exists already", "records", ledger, "--out", bag, "--bag", "--quiet");
    Files.delete(folder.resolve("side.restored.wav"));
    refused(2, "--restored", "records", ledger, "--out", folder.resolve("b2"), "--bag", "--quiet");
    assertFalse(Files.exists(folder.resolve("b2")));
  }
}
