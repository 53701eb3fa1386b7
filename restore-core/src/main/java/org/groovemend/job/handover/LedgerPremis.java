package org.groovemend.job.handover;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SampleCoding;
import org.groovemend.job.account.Account;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.Sha256;
import org.groovemend.ledger.Verifier;
import org.groovemend.premis.PremisAgent;
import org.groovemend.premis.PremisDocument;
import org.groovemend.premis.PremisEvent;
import org.groovemend.premis.PremisEvent.Link;
import org.groovemend.premis.PremisEvent.Type;
import org.groovemend.premis.PremisObject;
import org.groovemend.sealed.CanonicalJson;
import org.groovemend.signing.LedgerSignature;
import org.groovemend.signing.SignatureFile;
import org.groovemend.signing.SignatureRole;

/**
 * What a ledger knows, as PREMIS: only that. When and how the disc was played it does not know, so
 * there is no event of capture.
 */
final class LedgerPremis {

  private static final String DERIVATION = "derivation";
  private static final String HAS_SOURCE = "has source";
  private static final String PERFORMER = "executing program";
  private static final String SOURCE = "source";
  private static final String OUTCOME = "outcome";

  private final Account.Request request;
  private final Ledger ledger;
  private final List<Check> checks;
  private final SignatureFile signatures;
  private final Descent descent;
  private final String ledgerName;
  private final String now;
  private final List<PremisEvent> events = new ArrayList<>();
  private final Map<String, PremisAgent> agents = new LinkedHashMap<>();

  private LedgerPremis(
      Account.Request request,
      Ledger ledger,
      List<Check> checks,
      SignatureFile signatures,
      Descent descent) {
    this.descent = descent;
    this.request = request;
    this.ledger = ledger;
    this.checks = checks;
    this.signatures = signatures;
    this.ledgerName = FilePath.name(request.ledger());
    this.now = request.now().truncatedTo(ChronoUnit.SECONDS).toString();
  }

  /**
   * The document.
   *
   * @param checks of ledger, files and signatures, made just now; none of them failed
   * @param beside further files that go with the ledger, such as its report
   * @param descent the ledgers that it descends from, as far as they are at hand
   */
  static byte[] write(
      Account.Request request,
      Ledger ledger,
      List<Check> checks,
      SignatureFile signatures,
      List<Path> beside,
      Descent descent)
      throws IOException {
    return new LedgerPremis(request, ledger, checks, signatures, descent).write(beside);
  }

  private byte[] write(List<Path> beside) throws IOException {
    LedgerHeader header = ledger.header();
    FileFacts original = header.original();
    FileFacts restored = ledger.totals().restored();
    FileFacts removed = ledger.totals().removed();
    String tool =
        agent(header.tool() + " " + header.toolVersion(), header.tool(), header.toolVersion());
    String writer =
        agent(request.program(), "groovemend", request.program().replaceFirst("^\\S+ ", ""));
    List<FileFacts> made = removed == null ? List.of(restored) : List.of(restored, removed);
    String created = created(tool, original, made);
    digests(tool, original, made);
    modifications(tool, original, made);
    fixity(writer, original, made);
    signed(writer);
    List<PremisObject> objects = new ArrayList<>();
    objects.add(audio(original, List.of()));
    for (FileFacts each : made) {
      objects.add(
          audio(
              each,
              List.of(
                  new PremisObject.Relation(DERIVATION, HAS_SOURCE, original.name(), created))));
    }
    objects.add(
        ledgerObject(
            ledger,
            ledgerName,
            descent.links().isEmpty() ? null : descent.links().get(0),
            created,
            signatures.signatures().stream().map(LedgerPremis::signature).toList()));
    for (int i = 0; i < descent.links().size(); i++) {
      Descent.Link link = descent.links().get(i);
      Descent.Link before = i + 1 < descent.links().size() ? descent.links().get(i + 1) : null;
      objects.add(ledgerObject(link.parent(), link.name(), before, null, List.of()));
    }
    for (Path each : beside) {
      objects.add(file(each, formatOf(each), "", List.of()));
    }
    return PremisDocument.write(objects, events, List.copyOf(agents.values()));
  }

  private String agent(String identifier, String name, String version) {
    agents.putIfAbsent(identifier, new PremisAgent(identifier, name, false, version, ""));
    return identifier;
  }

  private String created(String tool, FileFacts original, List<FileFacts> made) {
    List<Link> links = new ArrayList<>(List.of(new Link(original.name(), SOURCE)));
    made.forEach(file -> links.add(new Link(file.name(), OUTCOME)));
    links.add(new Link(ledgerName, OUTCOME));
    descent.links().stream().limit(1).forEach(parent -> links.add(new Link(parent.name(), SOURCE)));
    event(
        "creation-1",
        Type.CREATION,
        ledger.header().createdUtc(),
        "A clean copy was made of the transfer, with a ledger of every change; the transfer was only read."
            + descent(),
        "success",
        ledger.totals().changedSamples()
            + " samples differ between transfer and clean copy; the ledger has "
            + ledger.totals().edits()
            + " edits.",
        tool,
        links);
    return "creation-1";
  }

  /** Edits were taken back: which ledger had them. */
  private String descent() {
    LedgerParent parent = ledger.header().parent();
    return parent == null
        ? ""
        : " Of "
            + parent.edits()
            + " edits of the ledger "
            + parent.ledger()
            + ", seal "
            + parent.seal()
            + ", "
            + parent.undone()
            + " were taken back.";
  }

  private void digests(String tool, FileFacts original, List<FileFacts> made) {
    List<Link> links = new ArrayList<>(List.of(new Link(original.name(), SOURCE)));
    made.forEach(file -> links.add(new Link(file.name(), SOURCE)));
    event(
        "digests-1",
        Type.MESSAGE_DIGEST_CALCULATION,
        ledger.header().createdUtc(),
        "SHA-256 of every file, and of its samples alone, taken for the ledger.",
        "success",
        "",
        tool,
        links);
  }

  private void modifications(String tool, FileFacts original, List<FileFacts> made) {
    int number = 0;
    for (AppliedStage stage : ledger.header().stages()) {
      number++;
      long edits = ledger.totals().editsByStage().getOrDefault(stage.name(), 0L);
      boolean repair = stage.kind().equals(AppliedStage.REPAIR);
      List<Link> links = new ArrayList<>(List.of(new Link(original.name(), SOURCE)));
      made.forEach(file -> links.add(new Link(file.name(), OUTCOME)));
      event(
          "modification-" + number,
          Type.MODIFICATION,
          ledger.header().createdUtc(),
          "Stage " + number + ", " + stage.name() + " (" + stage.kind() + ")." + settings(stage),
          "success",
          repair
              ? edits + (edits == 1 ? " place was repaired." : " places were repaired.")
              : "Any sample of the side may have been changed; what was taken away is in the removed file.",
          tool,
          links);
    }
  }

  /** The settings as canonical JSON, as far as the ledger has them under the stage's name. */
  private String settings(AppliedStage stage) {
    if (!(ledger.header().treatment().get(stage.name()) instanceof Map<?, ?> settings)) {
      return "";
    }
    Map<String, Object> plain = new LinkedHashMap<>();
    settings.forEach((key, value) -> plain.put(String.valueOf(key), value));
    return " Settings: "
        + new String(CanonicalJson.bytes(plain), java.nio.charset.StandardCharsets.UTF_8);
  }

  /** Only what was looked at: a file that was not at hand has no event. */
  private void fixity(String writer, FileFacts original, List<FileFacts> made) {
    check(writer, Verifier.LEDGER, ledgerName);
    check(writer, Verifier.ORIGINAL_FILE, original.name());
    check(writer, Verifier.RESTORED_FILE, made.get(0).name());
    if (made.size() > 1) {
      check(writer, Verifier.REMOVED_FILE, made.get(1).name());
    }
    check(writer, Verifier.REVERSAL, ledgerName);
  }

  private void check(String writer, String name, String object) {
    checks.stream()
        .filter(check -> check.name().equals(name))
        .findFirst()
        .filter(check -> check.outcome() == Check.Outcome.HOLDS)
        .ifPresent(
            check ->
                event(
                    "fixity-" + name,
                    Type.FIXITY_CHECK,
                    now,
                    "groovemend verify: " + name,
                    "pass",
                    check.words(),
                    writer,
                    List.of(new Link(object, SOURCE))));
  }

  private void signed(String writer) {
    int number = 0;
    for (LedgerSignature one : signatures.signatures()) {
      number++;
      String print = "key " + one.key().fingerprint();
      String who = agentOf(one);
      event(
          "signature-" + number,
          Type.SIGNATURE_GENERATION,
          one.atUtc(),
          "Signed as "
              + one.role().key()
              + " with the "
              + print
              + "; time as the signature states it.",
          "success",
          "",
          List.of(
              new Link(who, one.role() == SignatureRole.OPERATOR ? "implementer" : "validator")),
          List.of(new Link(ledgerName, SOURCE)));
      boolean known = request.wish().trusted().contains(one.key());
      event(
          "signature-check-" + number,
          Type.SIGNATURE_VALIDATION,
          now,
          "Signature " + number + " of the ledger",
          "pass",
          "It fits the ledger. "
              + (known ? "Its key was named as trusted: " : "Whose key it is was not checked: ")
              + print,
          writer,
          List.of(new Link(ledgerName, SOURCE)));
    }
  }

  private String agentOf(LedgerSignature one) {
    String identifier = "key " + one.key().fingerprint();
    agents.putIfAbsent(
        identifier,
        new PremisAgent(
            identifier,
            one.name().isEmpty() ? "not stated" : one.name(),
            true,
            "",
            "Name as stated with the signature; Ed25519 public key " + one.key().spki()));
    return identifier;
  }

  private static PremisObject.Signed signature(LedgerSignature one) {
    return new PremisObject.Signed(
        one.name(),
        "Ed25519 (RFC 8032)",
        one.signature(),
        "Over the canonical JSON (RFC 8785) of the payload in the file of signatures; see docs/reference/signatures.md of groovemend.",
        "role " + one.role().key() + ", " + one.atUtc() + ", public key " + one.key().spki());
  }

  private static PremisObject audio(FileFacts facts, List<PremisObject.Relation> from) {
    AudioFormat format = facts.format();
    return new PremisObject(
        facts.name(),
        facts.bytes(),
        facts.sha256(),
        facts.container(),
        String.format(
            Locale.ROOT,
            "linear PCM, %s, %d bits, %d Hz, %d %s, %d frames; SHA-256 of the samples alone %s",
            format.coding() == SampleCoding.PCM ? "integer" : "IEEE float",
            format.containerBits(),
            format.sampleRateHz(),
            format.channels(),
            format.channels() == 1 ? "channel" : "channels",
            facts.frames(),
            facts.samplesSha256()),
        from,
        List.of());
  }

  /**
   * A ledger.
   *
   * @param from the one that it descends from; null for none, or none at hand
   * @param event by which it came from that one, or null if this document does not tell of it
   */
  private static PremisObject ledgerObject(
      Ledger ledger, String name, Descent.Link from, String event, List<PremisObject.Signed> signed)
      throws IOException {
    return new PremisObject(
        name,
        Files.size(ledger.path()),
        Sha256.of(ledger.path()),
        "groovemend-ledger, JSON Lines",
        "chained and sealed; seal " + ledger.seal(),
        from == null
            ? List.of()
            : List.of(new PremisObject.Relation(DERIVATION, HAS_SOURCE, from.name(), event)),
        signed);
  }

  private static PremisObject file(
      Path file, String format, String note, List<PremisObject.Signed> signed) throws IOException {
    return new PremisObject(
        FilePath.name(file), Files.size(file), Sha256.of(file), format, note, List.of(), signed);
  }

  private static String formatOf(Path file) {
    String name = FilePath.name(file).toLowerCase(Locale.ROOT);
    return name.endsWith(".html") ? "HTML" : name.endsWith(".json") ? "JSON (RFC 8785)" : "text";
  }

  private void event(
      String identifier,
      Type type,
      String at,
      String detail,
      String outcome,
      String note,
      String agent,
      List<Link> objects) {
    event(
        identifier, type, at, detail, outcome, note, List.of(new Link(agent, PERFORMER)), objects);
  }

  private void event(
      String identifier,
      Type type,
      String at,
      String detail,
      String outcome,
      String note,
      List<Link> who,
      List<Link> objects) {
    events.add(new PremisEvent(identifier, type, at, detail, outcome, note, who, objects));
  }
}
