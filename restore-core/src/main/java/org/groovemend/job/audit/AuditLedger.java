package org.groovemend.job.audit;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.ledger.VerificationException;

/**
 * Finds the ledger of a derivative: the one that was named, or one beside it that speaks of both.
 */
final class AuditLedger {
  private static final String ENDING = ".ledger.jsonl";

  /** Of a folder of many sides no more are opened. */
  private static final int MOST = 50;

  /** Ledgers of other copies of the same original that are told. */
  private static final int MOST_HINTS = 3;

  private final Audit.Request request;
  private final FileFacts original;
  private final FileFacts derivative;
  private final List<String> notices;

  AuditLedger(
      Audit.Request request, FileFacts original, FileFacts derivative, List<String> notices) {
    this.request = request;
    this.original = original;
    this.derivative = derivative;
    this.notices = notices;
  }

  /**
   * The ledger to explain with; null to measure.
   *
   * @throws VerificationException if the one that was named is that of other files
   */
  Ledger find() throws IOException, VerificationException {
    if (request.measure()) {
      return null;
    }
    if (request.ledger() != null) {
      Ledger ledger = Ledger.open(request.ledger());
      String off = offence(ledger);
      if (off != null) {
        throw new VerificationException(off, List.of());
      }
      return ledger;
    }
    return beside();
  }

  private Ledger beside() throws IOException {
    Path folder = request.derivative().toAbsolutePath().getParent();
    List<Path> files = new ArrayList<>();
    try (DirectoryStream<Path> listed = Files.newDirectoryStream(folder, "*" + ENDING)) {
      for (Path file : listed) {
        files.add(file);
      }
    }
    String name = derivative.name();
    files.sort(
        Comparator.comparingInt((Path file) -> -named(file, name))
            .thenComparing(Comparator.naturalOrder()));
    List<Path> opened = files.subList(0, Math.min(MOST, files.size()));
    // what is said of others matters only where none fits
    List<String> told = new ArrayList<>();
    LedgerDamagedException damage = null;
    int hints = 0;
    for (Path file : opened) {
      try {
        Ledger ledger = Ledger.open(file);
        FileFacts restored = ledger.totals().restored();
        if (!restored.name().equals(name)
            && !restored.samplesSha256().equals(derivative.samplesSha256())) {
          if (offence(ledger) == null && hints++ < MOST_HINTS) {
            told.add(
                "The ledger "
                    + file.getFileName()
                    + " beside it is of the same original, but of another copy ("
                    + restored.name()
                    + "); if this is that copy, altered and renamed, --ledger "
                    + file.getFileName()
                    + " tells what was altered.");
          }
          continue;
        }
        String off = offence(ledger);
        if (off == null) {
          return ledger;
        }
        told.add("The ledger " + file.getFileName() + " lies beside it but does not fit: " + off);
      } catch (LedgerDamagedException e) {
        // the best of those whose name fits: another ledger may still speak of this copy
        if (named(file, name) > 0 && damage == null) {
          damage = e.in(file);
        } else {
          told.add("The ledger " + file.getFileName() + " was left aside: " + e.getMessage());
        }
      } catch (LedgerVersionException e) {
        told.add("The ledger " + file.getFileName() + " was left aside: " + e.getMessage());
      }
    }
    if (damage != null) {
      throw damage;
    }
    if (files.size() > opened.size()) {
      told.add(
          String.format(
              Locale.ROOT,
              "%d of the %,d ledgers beside it were looked at, none of which speaks of this copy; --ledger names the right one.",
              opened.size(),
              files.size()));
    }
    notices.addAll(told);
    return null;
  }

  /**
   * By the names that restore and undo give: side.restored.wav, side.ledger.jsonl.
   *
   * @return letters of the derivative's name that tell the ledger's; 0 if it is not named so
   */
  private static int named(Path ledger, String derivative) {
    String stem = ledger.getFileName().toString();
    stem = stem.substring(0, stem.length() - ENDING.length());
    return derivative.startsWith(stem + ".") ? stem.length() : 0;
  }

  /** Why a ledger cannot explain these files; null if it can. */
  private String offence(Ledger ledger) {
    FileFacts was = ledger.header().original();
    FileFacts is = ledger.totals().restored();
    if (!was.samplesSha256().equals(original.samplesSha256()) || !Audit.sameShape(was, original)) {
      return "The ledger "
          + ledger.path().getFileName()
          + " is that of another original ("
          + was.name()
          + ", samples of SHA-256 "
          + was.samplesSha256()
          + "), not of "
          + original.name()
          + ".";
    }
    if (!Audit.sameShape(is, derivative)) {
      return "The ledger "
          + ledger.path().getFileName()
          + " speaks of a copy of other length or format ("
          + is.name()
          + "), not of "
          + derivative.name()
          + "; --without-ledger measures.";
    }
    return null;
  }
}
