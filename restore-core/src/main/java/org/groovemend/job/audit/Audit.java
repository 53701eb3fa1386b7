package org.groovemend.job.audit;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audit.AuditOutcome;
import org.groovemend.audit.Auditor;
import org.groovemend.audit.Watch;
import org.groovemend.audit.WordCensus;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.WholeFile;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.Sha256;
import org.groovemend.ledger.SplitWords;
import org.groovemend.ledger.VerificationException;
import org.groovemend.lineage.Lineage;

/** Says what became of an original in something made from it; reads only, but for the page. */
public final class Audit {

  private Audit() {}

  /**
   * What is asked for.
   *
   * @param original file
   * @param derivative file made from it
   * @param ledger of the derivative; null to look for it beside the derivative
   * @param removed the removed file; null to look for it beside the ledger
   * @param parents ledgers, or folders of such, that the ledger descends from, where they are not
   *     found without help
   * @param measure true to measure even if there is a ledger
   * @param page to write; null for none
   * @param replace whether a page that exists is written over
   * @param toolVersion for the page
   * @param preparedAt date and time, for the page
   */
  public record Request(
      Path original,
      Path derivative,
      Path ledger,
      Path removed,
      List<Path> parents,
      boolean measure,
      Path page,
      boolean replace,
      String toolVersion,
      String preparedAt) {}

  /**
   * What was found.
   *
   * @param original facts of the file
   * @param derivative the same
   * @param ledger name of the ledger that was used; null for none
   * @param notices what a person should know of how it was done
   * @param outcome the findings
   */
  public record Result(
      FileFacts original,
      FileFacts derivative,
      String ledger,
      List<String> notices,
      AuditOutcome outcome) {
    public Result {
      notices = List.copyOf(notices);
    }
  }

  /**
   * Audits.
   *
   * @throws InputRejectedException if a file cannot be taken, or the two have nothing in common
   * @throws VerificationException if the ledger that was named is that of other files, or cannot
   *     tell for want of its removed file
   * @throws org.groovemend.delivery.OutputExistsException if the page exists
   */
  public static Result run(Request request, Progress progress)
      throws IOException, VerificationException {
    try (SideReader original = SideFiles.open(request.original());
        SideReader derivative = SideFiles.open(request.derivative())) {
      WordCensus was = WordCensus.of(original, watch(progress, "reading the original"));
      WordCensus is = WordCensus.of(derivative, watch(progress, "reading the derivative"));
      FileFacts originalFacts = facts(request.original(), original, was);
      FileFacts derivativeFacts = facts(request.derivative(), derivative, is);
      List<String> notices = new ArrayList<>();
      notices(original, "original", notices);
      notices(derivative, "derivative", notices);
      Ledger ledger = new AuditLedger(request, originalFacts, derivativeFacts, notices).find();
      AuditOutcome outcome;
      if (ledger != null) {
        descent(ledger, request.parents(), notices);
        outcome =
            withLedger(request, ledger, original, derivative, derivativeFacts, notices, progress);
      } else if (originalFacts.sha256().equals(derivativeFacts.sha256())) {
        outcome = Auditor.sameFile();
      } else if (sameShape(originalFacts, derivativeFacts)
          && was.samplesSha256().equals(is.samplesSha256())) {
        outcome = Auditor.sameSamples();
      } else {
        outcome = measured(request, original, was, derivative, is, progress);
      }
      Result result =
          new Result(
              originalFacts,
              derivativeFacts,
              ledger == null ? null : ledger.path().getFileName().toString(),
              notices,
              outcome);
      if (request.page() != null) {
        List<Path> inputs = new ArrayList<>(List.of(request.original(), request.derivative()));
        if (ledger != null) {
          inputs.add(ledger.path());
          Path removed =
              request.removed() != null ? request.removed() : LedgerFiles.beside(ledger).removed();
          if (removed != null) {
            inputs.add(removed);
          }
        }
        WholeFile.write(
            request.page(),
            AuditPage.of(request, result).getBytes(StandardCharsets.UTF_8),
            request.replace(),
            inputs);
      }
      return result;
    }
  }

  private static Watch watch(Progress progress, String step) {
    return (done, total) -> progress.at(step, done, total);
  }

  private static void notices(SideReader side, String role, List<String> notices) {
    side.notices().forEach(notice -> notices.add("Of the " + role + ": " + notice));
  }

  /** A copy with edits taken back: whether the ledgers before it agree. */
  private static void descent(Ledger ledger, List<Path> parents, List<String> notices)
      throws IOException {
    LedgerParent parent = ledger.header().parent();
    if (parent == null) {
      return;
    }
    notices.add(
        "In this copy "
            + parent.undone()
            + " of the "
            + parent.edits()
            + " edits of "
            + parent.ledger()
            + " were taken back: there the original's samples went on to what follows.");
    List<Check> checks = Lineage.check(ledger, parents);
    int before = notices.size();
    checks.stream()
        .filter(check -> check.outcome() != Check.Outcome.HOLDS)
        .forEach(check -> notices.add(check.words()));
    if (notices.size() == before) {
      notices.add("The ledgers that it descends from agree with it.");
    }
  }

  private static FileFacts facts(Path file, SideReader side, WordCensus words) throws IOException {
    return new FileFacts(
        file.getFileName().toString(),
        Files.size(file),
        Sha256.of(file),
        words.samplesSha256(),
        side.frames(),
        side.format(),
        side.container());
  }

  /** The digest of samples is over words: equal digests of other words would say nothing. */
  static boolean sameShape(FileFacts a, FileFacts b) {
    return a.frames() == b.frames()
        && a.format().sampleRateHz() == b.format().sampleRateHz()
        && a.format().channels() == b.format().channels()
        && a.format().coding() == b.format().coding()
        && a.format().containerBits() == b.format().containerBits();
  }

  private static AuditOutcome withLedger(
      Request request,
      Ledger ledger,
      SideReader original,
      SideReader derivative,
      FileFacts derivativeFacts,
      List<String> notices,
      Progress progress)
      throws IOException, VerificationException {
    boolean proved =
        derivativeFacts.samplesSha256().equals(ledger.totals().restored().samplesSha256());
    Watch watch = watch(progress, "comparing the words");
    if (!ledger.header().wholeSignal()) {
      return Auditor.withLedger(ledger, original, derivative, null, proved, watch);
    }
    Path file =
        request.removed() != null ? request.removed() : LedgerFiles.beside(ledger).removed();
    if (file != null) {
      try (SideReader removed = SideFiles.open(file)) {
        String digest =
            WordCensus.of(removed, watch(progress, "reading the removed file")).samplesSha256();
        if (digest.equals(ledger.totals().removed().samplesSha256())) {
          WordSource taken =
              original.format().containerBits() == 64 ? SplitWords.joined(removed) : removed;
          return Auditor.withLedger(ledger, original, derivative, taken, proved, watch);
        }
        notices.add(
            "The removed file "
                + file.getFileName()
                + " is not the one of the ledger, or was altered; it explains nothing.");
      }
    }
    if (!proved) {
      throw new VerificationException(
          "The ledger names a stage that may change any sample, and its removed file "
              + ledger.totals().removed().name()
              + (file == null ? " is not at hand" : " is not the one that was written")
              + "; the copy is not the ledger's word for word either, so nothing in it can be explained. Give --removed, or --without-ledger to measure.",
          List.of());
    }
    notices.add(
        "Without the removed file, what the stages changed is explained by the digest of the whole copy alone, which is that of the ledger.");
    return Auditor.withLedger(ledger, original, derivative, null, true, watch);
  }

  private static AuditOutcome measured(
      Request request,
      SideReader original,
      WordCensus was,
      SideReader derivative,
      WordCensus is,
      Progress progress)
      throws IOException {
    SideChain nothing = new SideChain(List.of());
    AuditOutcome outcome =
        Auditor.measured(
            original,
            nothing.reader(original),
            was,
            derivative,
            nothing.reader(derivative),
            is,
            watch(progress, "comparing"));
    if (outcome == null) {
      throw new InputRejectedException(
          request.derivative(),
          "",
          "nothing of it is found in " + request.original().getFileName(),
          "give the recording it was made from; another transfer, even of the same disc, is another recording");
    }
    return outcome;
  }
}
