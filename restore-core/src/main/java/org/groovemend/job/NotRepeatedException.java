package org.groovemend.job;

import java.util.List;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.VerificationException;

/** A treatment that was run again did something else than its ledger says. */
final class NotRepeatedException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient Mismatch mismatch;

  NotRepeatedException(String place, Object expected, Object found) {
    super(place);
    mismatch = new Mismatch(place, String.valueOf(expected), String.valueOf(found));
  }

  /** For people. */
  VerificationException told(Ledger ledger, String toolVersion) {
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
