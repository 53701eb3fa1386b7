package org.groovemend.ledger;

import java.nio.file.Files;
import java.nio.file.Path;
import org.groovemend.audio.FilePath;

/**
 * The audio files that belong to a ledger.
 *
 * @param original null if not at hand
 * @param restored null if not at hand
 * @param removed null if there is none or it is not at hand
 */
public record LedgerFiles(Path original, Path restored, Path removed) {

  /** The files that lie beside the ledger under the names it holds. */
  public static LedgerFiles beside(Ledger ledger) {
    return new LedgerFiles(
        beside(ledger, ledger.header().original()),
        beside(ledger, ledger.totals().restored()),
        beside(ledger, ledger.totals().removed()));
  }

  private static Path beside(Ledger ledger, FileFacts facts) {
    if (facts == null) {
      return null;
    }
    return in(ledger.path().getParent(), facts.name());
  }

  /**
   * The file of a name that a ledger holds, or null if it is not there.
   *
   * @param folder null for the one where the program runs
   * @param name without any folder
   */
  public static Path in(Path folder, String name) {
    Path file = folder == null ? Path.of(name) : folder.resolve(name);
    // a name may hold what is a separator on this system only
    boolean plain = file.getFileName() != null && FilePath.name(file).equals(name);
    return plain && Files.isRegularFile(file) ? file : null;
  }

  /** These files, and for those that are null the other ones. */
  public LedgerFiles or(LedgerFiles other) {
    return new LedgerFiles(
        original != null ? original : other.original,
        restored != null ? restored : other.restored,
        removed != null ? removed : other.removed);
  }
}
