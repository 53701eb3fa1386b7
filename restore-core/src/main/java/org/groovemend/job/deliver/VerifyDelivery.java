package org.groovemend.job.deliver;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.groovemend.audio.FilePath;
import org.groovemend.bag.BagFinding;
import org.groovemend.bag.BagReport;
import org.groovemend.bag.BagValidator;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.speed.SpeedRecord;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.Sha256;

/**
 * Follows every copy of a delivery back to the original it was made from, link by link: record of
 * the delivery, file, record of the copy, ledger, clean copy, original. Reads only.
 *
 * <p>Where a file is damaged, what hangs on it is not checked: the first broken link alone fails.
 */
public final class VerifyDelivery {

  /** The bag that the delivery lies in is complete and valid (RFC 8493). */
  public static final String BAG = "bag";

  /** The record of the delivery is as it was written. */
  public static final String RECORD = "delivery-record";

  /** A file has the length and digest that the record gives. */
  public static final String FILE = "delivered-file";

  /** The record of a copy is as it was written. */
  public static final String COPY_RECORD = "copy-record";

  /** The record of a copy speaks of the file that is there. */
  public static final String LINK_FILE = "link-to-file";

  /** The original that it names is that of the delivery, and of the ledger. */
  public static final String LINK_ORIGINAL = "link-to-original";

  /** The ledger that it names is the one that is there. */
  public static final String LINK_LEDGER = "link-to-ledger";

  /** The clean copy that it names is the one of the ledger. */
  public static final String LINK_CLEAN = "link-to-clean-copy";

  /** An original that was given is one of the delivery's. */
  public static final String ORIGINAL = "given-original";

  private final Path folder;
  private final List<Check> checks = new ArrayList<>();
  private final Map<String, SpeedRecord.Identity> files = new LinkedHashMap<>();
  private final Set<String> originals = new HashSet<>();
  private final Set<String> sound = new HashSet<>();
  private final Map<String, Path> atHand = new LinkedHashMap<>();
  private final Map<String, Ledger> ledgers = new LinkedHashMap<>();

  private VerifyDelivery(Path folder) {
    this.folder = folder;
  }

  /** True if this is a delivery, or the record of one or of a copy, and no ledger. */
  public static boolean takes(Path given) {
    return Files.isDirectory(given)
        ? Files.isRegularFile(record(given))
        : given.getFileName() != null && FilePath.name(given).endsWith(".json");
  }

  /**
   * Checks a delivery, or one copy.
   *
   * @param given its folder, its record, or the record of a copy
   * @param original a transfer that lies elsewhere, or null
   * @return every check; damage is a check that fails, not an exception
   * @throws IOException if the record cannot be read at all
   */
  public static List<Check> run(Path given, Path original) throws IOException {
    Path record = Files.isDirectory(given) ? record(given) : given;
    VerifyDelivery verify = new VerifyDelivery(FilePath.folder(record));
    if (Files.isDirectory(given) && !FilePath.folder(record).equals(given.toAbsolutePath())) {
      verify.checkBag(BagValidator.validate(given, n -> {}));
    }
    SealedRecord.Read read = SealedRecord.read(record);
    if (read.content() != null && read.content().has(CopyRecord.FORM)) {
      verify.one(record, read, original);
    } else {
      verify.all(record, read, original);
    }
    return verify.checks;
  }

  /** The record of a delivery, in its folder or in the payload of a bag. */
  private static Path record(Path folder) {
    Path plain = folder.resolve(DeliverPlan.RECORD);
    Path bagged = folder.resolve("data").resolve(DeliverPlan.RECORD);
    return !Files.isRegularFile(plain) && Files.isRegularFile(bagged) ? bagged : plain;
  }

  private void checkBag(BagReport report) {
    if (report.valid()) {
      checks.add(
          Check.holds(BAG, "", "The bag is complete and every checksum of its manifests holds."));
    }
    for (BagFinding finding : report.findings()) {
      checks.add(
          finding.kind().fault()
              ? Check.fails(BAG, "", finding.file(), finding.what())
              : Check.notChecked(BAG, finding.what()));
    }
  }

  private void all(Path record, SealedRecord.Read read, Path original) throws IOException {
    if (!requireSeal(RECORD, record, read)) {
      return;
    }
    for (JsonNode one : read.content().path("originals")) {
      originals.add(one.path("sha256").asText());
    }
    for (JsonNode one : read.content().path("files")) {
      keep(one);
    }
    checkGiven(original);
    files.values().forEach(this::checkFile);
    sayWhatElseLiesThere(record);
    Set<String> used = new TreeSet<>();
    for (String name : files.keySet()) {
      Path sidecar = folder.resolve(DeliverPlan.sidecar(name));
      String itsName = FilePath.name(sidecar);
      if (!files.containsKey(itsName)) {
        continue;
      }
      if (!sound.contains(itsName)) {
        checks.add(
            Check.notChecked(
                COPY_RECORD, itsName + " is damaged; nothing in it can be relied on."));
        continue;
      }
      SealedRecord.Read copy = SealedRecord.read(sidecar);
      if (requireSeal(COPY_RECORD, sidecar, copy)) {
        follow(copy.content(), used);
      }
    }
    for (String ledger : used) {
      verifyLedger(ledger);
    }
  }

  private void one(Path record, SealedRecord.Read read, Path original) throws IOException {
    if (!requireSeal(COPY_RECORD, record, read)) {
      return;
    }
    JsonNode copy = read.content();
    originals.add(copy.path("original").path("sha256").asText());
    for (String what : List.of("file", "ledger", "cleanCopy")) {
      if (copy.hasNonNull(what)) {
        keep(copy.path(what));
      }
    }
    checkGiven(original);
    files.values().forEach(this::checkFile);
    Set<String> used = new TreeSet<>();
    follow(copy, used);
    for (String ledger : used) {
      verifyLedger(ledger);
    }
  }

  private boolean requireSeal(String name, Path file, SealedRecord.Read read) {
    if (read.whole()) {
      checks.add(Check.holds(name, read.stated(), file.getFileName() + " is as it was written."));
      return true;
    }
    checks.add(
        Check.fails(
            name,
            read.stated().isEmpty() ? "a sealed record" : read.stated(),
            read.found(),
            file.getFileName()
                + (read.content() == null
                    ? " is no record of a delivery, or damaged beyond reading."
                    : " is not as it was written: its seal does not fit.")));
    return false;
  }

  private void keep(JsonNode one) {
    String name = one.path("name").asText();
    files.put(
        name,
        new SpeedRecord.Identity(name, one.path("bytes").asLong(), one.path("sha256").asText()));
  }

  private void checkGiven(Path original) throws IOException {
    if (original == null) {
      return;
    }
    String digest = Sha256.of(original);
    if (originals.contains(digest)) {
      atHand.put(digest, original);
      checks.add(Check.holds(ORIGINAL, digest, original.getFileName() + " is the original."));
    } else {
      checks.add(
          Check.fails(
              ORIGINAL,
              String.join(" or ", new TreeSet<>(originals)),
              digest,
              original.getFileName() + " is not an original of this delivery."));
    }
  }

  private void checkFile(SpeedRecord.Identity file) {
    Path path = folder.resolve(file.name());
    // a name that leads elsewhere is not followed
    boolean plain = file.name().equals(String.valueOf(path.getFileName()));
    if (!plain || !Files.isRegularFile(path)) {
      checks.add(Check.fails(FILE, file.sha256(), "", file.name() + " is missing."));
      return;
    }
    String found;
    try {
      found = Sha256.of(path);
    } catch (IOException e) {
      checks.add(Check.fails(FILE, file.sha256(), "", file.name() + " cannot be read."));
      return;
    }
    if (found.equals(file.sha256())) {
      sound.add(file.name());
      checks.add(Check.holds(FILE, found, file.name() + " is as it was written."));
    } else {
      checks.add(
          Check.fails(FILE, file.sha256(), found, file.name() + " is not as it was written."));
    }
  }

  private void sayWhatElseLiesThere(Path record) throws IOException {
    try (Stream<Path> list = Files.list(folder)) {
      for (Path path : list.sorted().toList()) {
        String name = FilePath.name(path);
        if (!files.containsKey(name) && !name.equals(FilePath.name(record))) {
          checks.add(
              Check.notChecked(FILE, name + " lies in the folder but is not of the delivery."));
        }
      }
    }
  }

  /** From the record of a copy back to the original. */
  private void follow(JsonNode copy, Set<String> used) throws IOException {
    String name = copy.path("file").path("name").asText();
    String digest = copy.path("file").path("sha256").asText();
    String original = copy.path("original").path("sha256").asText();
    SpeedRecord.Identity listed = files.get(name);
    link(
        LINK_FILE,
        listed == null ? "" : listed.sha256(),
        digest,
        "The record of " + name + " speaks of that file",
        name);
    if (!originals.contains(original)) {
      link(
          LINK_ORIGINAL,
          String.join(" or ", new TreeSet<>(originals)),
          original,
          original(name),
          name);
      return;
    }
    if (copy.path("kind").asText().equals(CopyKind.PRESERVATION.key())) {
      link(LINK_ORIGINAL, original, digest, name + " is the original", name);
      if (sound.contains(name)) {
        atHand.putIfAbsent(original, folder.resolve(name));
      }
      return;
    }
    if (!copy.hasNonNull("ledger")) {
      link(LINK_ORIGINAL, original, original, original(name), name);
      return;
    }
    String ledgerName = copy.path("ledger").path("name").asText();
    SpeedRecord.Identity ledgerFile = files.get(ledgerName);
    if (!link(
        LINK_LEDGER,
        ledgerFile == null ? "" : ledgerFile.sha256(),
        copy.path("ledger").path("sha256").asText(),
        name + " was made through the ledger " + ledgerName,
        name)) {
      return;
    }
    if (!sound.contains(ledgerName)) {
      checks.add(
          Check.notChecked(
              LINK_ORIGINAL, ledgerName + " is missing or damaged; " + name + " hangs on it."));
      return;
    }
    used.add(ledgerName);
    Ledger ledger = ledgers.get(ledgerName);
    if (ledger == null) {
      ledger = Ledger.open(folder.resolve(ledgerName));
      ledgers.put(ledgerName, ledger);
    }
    link(
        LINK_CLEAN,
        ledger.totals().restored().sha256(),
        copy.path("cleanCopy").path("sha256").asText(),
        name + " was made from the clean copy of that ledger",
        name);
    link(LINK_ORIGINAL, ledger.header().original().sha256(), original, original(name), name);
  }

  private static String original(String name) {
    return name + " goes back to an original of this delivery";
  }

  private boolean link(String check, String expected, String found, String claim, String name) {
    if (expected.equals(found) && !found.isEmpty()) {
      checks.add(Check.holds(check, found, claim + "."));
      return true;
    }
    checks.add(
        Check.fails(check, expected, found, "Not so: " + claim + " (record of " + name + ")."));
    return false;
  }

  private void verifyLedger(String name) throws IOException {
    Ledger ledger = ledgers.get(name);
    Path original = atHand.get(ledger.header().original().sha256());
    for (Check check : Verify.run(ledger.path(), new LedgerFiles(original, null, null))) {
      checks.add(
          new Check(
              check.name(),
              check.outcome(),
              check.expected(),
              check.found(),
              ledger.header().original().name() + ": " + check.words(),
              check.mismatches(),
              check.mismatchCount()));
    }
  }
}
