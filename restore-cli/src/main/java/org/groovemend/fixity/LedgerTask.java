package org.groovemend.fixity;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.fixity.FixityFinding.Kind;
import org.groovemend.job.proof.Verify;
import org.groovemend.job.proof.VerifySignatures;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.sealed.SealedDocumentException;

/**
 * A ledger, the files that it names, and the signatures and decisions beside it. Chain, seal and
 * digests are read again; that the original can be rebuilt is tried only if wanted.
 *
 * @param store the folder that is looked at
 * @param ledger file
 * @param known what a catalogue says of it, or null
 * @param thorough whether every check of a single ledger is made
 */
record LedgerTask(Path store, Path ledger, StoreCatalogue.Known known, boolean thorough)
    implements FixityTask {

  @Override
  public String key() {
    return name(ledger);
  }

  private String name(Path file) {
    Path whole = file.toAbsolutePath().normalize();
    return whole.startsWith(store) ? store.relativize(whole).toString() : whole.toString();
  }

  @Override
  public List<FixityFinding> check(FixityReading reading) throws IOException {
    List<FixityFinding> findings = new ArrayList<>();
    reading.begin();
    reading.read(Files.size(ledger));
    Ledger read;
    try {
      read = Ledger.open(ledger);
    } catch (LedgerDamagedException e) {
      findings.add(new FixityFinding(Kind.DAMAGED, key(), e.getMessage()));
      return findings;
    } catch (LedgerVersionException e) {
      findings.add(new FixityFinding(Kind.UNREADABLE, key(), e.getMessage()));
      return findings;
    }
    if (known != null && !known.seal().equals(read.seal())) {
      findings.add(
          new FixityFinding(
              Kind.CHANGED, key(), "The ledger is whole, but not the one of the catalogue."));
    }
    file(
        ledger.resolveSibling(read.totals().restored().name()),
        read.totals().restored(),
        reading,
        findings);
    if (read.totals().removed() != null) {
      file(
          ledger.resolveSibling(read.totals().removed().name()),
          read.totals().removed(),
          reading,
          findings);
    }
    Path original = original(read);
    if (original != null) {
      file(original, read.header().original(), reading, findings);
    }
    beside(read.seal(), findings);
    if (thorough && findings.isEmpty()) {
      for (Check check : Verify.run(ledger, new LedgerFiles(original, null, null))) {
        if (check.outcome() == Check.Outcome.FAILS) {
          findings.add(new FixityFinding(Kind.CHANGED, key(), check.words()));
        }
      }
    }
    return findings;
  }

  /** Where the catalogue says, else beside the ledger if it is there; it need not be at hand. */
  private Path original(Ledger read) {
    Path beside = ledger.resolveSibling(read.header().original().name());
    if (known != null && !known.original().equals(beside)) {
      return Files.exists(known.original()) || !Files.isRegularFile(beside)
          ? known.original()
          : beside;
    }
    return known != null || Files.isRegularFile(beside) ? beside : null;
  }

  private void file(
      Path file, FileFacts facts, FixityReading reading, List<FixityFinding> findings) {
    String name = name(file);
    try {
      long bytes = Files.size(file);
      if (bytes != facts.bytes()) {
        findings.add(
            new FixityFinding(
                Kind.CHANGED,
                name,
                name
                    + " has "
                    + bytes
                    + " bytes; "
                    + key()
                    + " names one of "
                    + facts.bytes()
                    + "."));
        return;
      }
      String found = reading.sha256(file);
      if (!found.equals(facts.sha256())) {
        findings.add(
            new FixityFinding(
                Kind.CHANGED,
                name,
                name
                    + " was changed: its SHA-256 is "
                    + found
                    + ", "
                    + key()
                    + " names "
                    + facts.sha256()
                    + "."));
      }
    } catch (NoSuchFileException e) {
      findings.add(
          new FixityFinding(Kind.MISSING, name, name + " is missing; " + key() + " names it."));
    } catch (IOException e) {
      findings.add(
          new FixityFinding(Kind.UNREADABLE, name, name + " cannot be read: " + e.getMessage()));
    }
  }

  private void beside(String seal, List<FixityFinding> findings) throws IOException {
    for (Check check : VerifySignatures.run(ledger, seal, VerifySignatures.Wish.NONE)) {
      if (check.outcome() == Check.Outcome.FAILS) {
        findings.add(new FixityFinding(Kind.CHANGED, key(), check.words()));
      }
    }
    Path decisions =
        ledger.resolveSibling(DecisionDocument.nameBeside(ledger.getFileName().toString()));
    if (Files.isRegularFile(decisions)) {
      try {
        DecisionDocument.read(decisions);
      } catch (SealedDocumentException e) {
        findings.add(new FixityFinding(Kind.DAMAGED, name(decisions), e.getMessage()));
      }
    }
  }
}
