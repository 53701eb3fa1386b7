package org.groovemend.job.restore;

import java.util.List;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.VerificationException;

/** A treatment that was run again did something else than its ledger says. */
public final class NotRepeatedException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient Mismatch mismatch;

  /** What a person can do, where it is not the program that is at fault; null else. */
  private final String help;

  public NotRepeatedException(String place, Object expected, Object found) {
    this(place, expected, found, null);
  }

  private NotRepeatedException(String place, Object expected, Object found, String help) {
    super(place);
    mismatch = new Mismatch(place, String.valueOf(expected), String.valueOf(found));
    this.help = help;
  }

  /**
   * The run may well be the same, but the ledger alone cannot tell.
   *
   * @param repairs how many are found that are no edits, over those that were taken back
   */
  public static NotRepeatedException forWantOfTheFirst(LedgerParent parent, long repairs) {
    return new NotRepeatedException(
        "repairs that the ledger does not hold",
        parent.undoneInAll() + " taken back before",
        parent.undoneInAll() + repairs,
        "The treatment also finds "
            + repairs
            + (repairs == 1 ? " repair" : " repairs")
            + " without any effect, and only the ledgers back to that of the first treatment can tell such from those"
            + " that were taken back on purpose. Nothing was written: say where "
            + parent.ledger()
            + " is with --parent, and those before it if there are any.");
  }

  /** For people. */
  public VerificationException told(Ledger ledger, String toolVersion) {
    if (help != null) {
      VerificationException told = new VerificationException(help, List.of(mismatch));
      told.initCause(this);
      return told;
    }
    LedgerHeader header = ledger.header();
    VerificationException told =
        new VerificationException(
            "This program (groovemend "
                + toolVersion
                + ", Java "
                + System.getProperty("java.version", "unknown")
                + ") does not repeat the treatment of "
                + FilePath.name(ledger.path())
                + " (groovemend "
                + header.toolVersion()
                + ", Java "
                + header.environment().javaVersion()
                + ", "
                + header.environment().arch()
                + "), and nothing was written: take the one that made it, or restore the side anew.",
            List.of(mismatch));
    told.initCause(this);
    return told;
  }
}
