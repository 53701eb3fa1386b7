package org.groovemend.job.handover;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.groovemend.audio.FilePath;
import org.groovemend.bag.BagWriter;
import org.groovemend.bag.DigestAlgorithm;
import org.groovemend.chain.Progress;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.account.Account;
import org.groovemend.job.account.LedgerSides;
import org.groovemend.job.proof.Revert;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.VerificationException;
import org.groovemend.signing.Fingerprint;
import org.groovemend.signing.SignatureFile;
import org.groovemend.technical.AudioObject;
import org.groovemend.technical.TechnicalDocument;

/**
 * Writes what other systems want to know of a treatment: PREMIS, technical metadata, an edit list,
 * the account for people; and, if wished, a bag that holds all files as well.
 */
public final class Records {

  /**
   * @param folder the folder or bag
   * @param files in it that were written now
   * @param carried files in it that were copied, "" for none
   * @param rebuilt true if the original was not at hand and was rebuilt from the others
   */
  public record Outcome(Path folder, List<String> files, List<String> carried, boolean rebuilt) {}

  private final Account.Request request;
  private final Progress progress;
  private final Ledger ledger;
  private final List<Check> checks;
  private final LedgerNames names;
  private final LedgerFiles files;
  private final Descent descent;

  private Records(Account.Request request, List<Check> checks, Progress progress)
      throws IOException {
    this.request = request;
    this.checks = checks;
    this.progress = progress;
    this.ledger = Ledger.open(request.ledger());
    this.names =
        LedgerNames.beside(request.ledger(), ledger.header().original().format().containerBits());
    this.files = request.files().or(LedgerFiles.beside(ledger));
    this.descent = Descent.of(ledger, request.parents());
  }

  /**
   * Checks everything, then writes; whole or not at all.
   *
   * @param folder where the records are to lie, or the bag that is to appear
   * @throws VerificationException if something does not hold
   * @throws RequestRefusedException if a bag is wished for and a file it must hold is not at hand
   */
  public static Outcome run(
      Account.Request request, Path folder, boolean bag, boolean replace, Progress progress)
      throws IOException, VerificationException {
    if (bag) {
      // says before the work that the bag cannot be written
      try (BagWriter writer =
          BagWriter.open(
              folder,
              replace,
              Account.inputs(request, Account.ledger(request)),
              EnumSet.of(DigestAlgorithm.SHA256))) {
        return new Records(request, Account.check(request), progress).bag(folder, writer);
      }
    }
    Records unchecked = new Records(request, List.of(), progress);
    List<String> wanted = List.copyOf(unchecked.names());
    try (OutputSet outputs =
        OutputSet.open(folder, wanted, replace, Account.inputs(request, unchecked.ledger))) {
      Records records = new Records(request, Account.check(request), progress);
      for (Map.Entry<String, Maker> each : records.makers().entrySet()) {
        each.getValue().write(outputs.temporary(each.getKey()));
      }
      outputs.commit();
      return new Outcome(folder, wanted, List.of(), false);
    }
  }

  private interface Maker {
    void write(Path file) throws IOException;
  }

  private Set<String> names() {
    return makers().keySet();
  }

  /** What is written, by name. */
  private Map<String, Maker> makers() {
    Map<String, Maker> makers = new LinkedHashMap<>();
    makers.put(names.name() + ".premis.xml", this::premis);
    makers.put(names.name() + ".technical.xml", file -> Files.write(file, technical()));
    makers.put(names.name() + ".edits.csv", this::edits);
    makers.put(
        names.name() + ".account.html",
        file -> Files.write(file, Account.page(request, ledger, checks, progress)));
    return makers;
  }

  private void premis(Path file) throws IOException {
    Files.write(
        file, LedgerPremis.write(request, ledger, checks, signatures(), companions(), descent));
  }

  private SignatureFile signatures() throws IOException {
    Path file = SignatureFile.beside(request.ledger().toAbsolutePath());
    return Files.exists(file) ? SignatureFile.read(file) : SignatureFile.empty();
  }

  private byte[] technical() {
    FileFacts original = ledger.header().original();
    List<AudioObject> objects = new ArrayList<>();
    objects.add(
        new AudioObject(original, "transfer, untreated", "", List.of(), null, null, List.of()));
    List<String> history =
        ledger.header().stages().stream()
            .map(stage -> stage.name() + " (" + stage.kind() + ")")
            .toList();
    objects.add(
        new AudioObject(
            ledger.totals().restored(), "clean copy", "", List.of(), null, original, history));
    return TechnicalDocument.write(objects);
  }

  private void edits(Path file) throws IOException {
    try (LedgerSides sides = LedgerSides.open(ledger, files);
        Writer out = Files.newBufferedWriter(file)) {
      EditTable.write(ledger, sides.restored(), out);
    }
  }

  /**
   * Files that belong to the ledger and are no sound: report, signatures, decisions about it, and
   * those by which it came about.
   */
  private List<Path> companions() {
    Path ledgerFile = request.ledger().toAbsolutePath();
    Stream<Path> beside =
        Stream.of(
            ledgerFile.resolveSibling(names.report()),
            SignatureFile.beside(ledgerFile),
            ledgerFile.resolveSibling(DecisionDocument.nameFor(ledger)));
    return Stream.concat(beside, descent.links().stream().limit(1).map(Descent.Link::decisions))
        .filter(file -> file != null && Files.isRegularFile(file))
        .toList();
  }

  private Outcome bag(Path folder, BagWriter writer) throws IOException, VerificationException {
    FileFacts original = ledger.header().original();
    FileFacts removed = ledger.totals().removed();
    if (files.restored() == null || removed != null && files.removed() == null) {
      throw new RequestRefusedException(
          "a bag holds all files of the ledger, and "
              + (files.restored() == null ? ledger.totals().restored().name() : removed.name())
              + " is not beside it; say where it is with --restored or --removed");
    }
    descent.requireWhole();
    List<String> carried = new ArrayList<>();
    boolean rebuilt = files.original() == null;
    if (rebuilt) {
      Revert.run(request.ledger(), files, writer.payload(original.name()), false);
      carried.add(original.name());
    } else {
      carry(files.original(), original.name(), writer, carried);
    }
    carry(files.restored(), ledger.totals().restored().name(), writer, carried);
    if (removed != null) {
      carry(files.removed(), removed.name(), writer, carried);
    }
    carry(request.ledger(), FilePath.name(request.ledger()), writer, carried);
    for (Path each : companions()) {
      carry(each, FilePath.name(each), writer, carried);
    }
    for (Map.Entry<String, Path> each : descent.toCarry().entrySet()) {
      carry(each.getValue(), each.getKey(), writer, carried);
    }
    for (Map.Entry<String, Maker> each : makers().entrySet()) {
      each.getValue().write(writer.payload(each.getKey()));
    }
    writer.info("External-Identifier", names.name());
    writer.info(
        "External-Description",
        "A transfer, its clean copy, what was taken away, and the ledger of every change; fingerprint of the ledger "
            + Fingerprint.of(ledger.seal()));
    writer.info("Bag-Software-Agent", request.program());
    writer.commit(LocalDate.ofInstant(request.now(), ZoneOffset.UTC), n -> {});
    return new Outcome(folder, List.copyOf(names()), carried, rebuilt);
  }

  private void carry(Path from, String name, BagWriter writer, List<String> carried)
      throws IOException {
    progress.at("copying", carried.size(), carried.size() + 1L);
    Files.copy(from, writer.payload(name));
    carried.add(name);
  }
}
