package org.groovemend.ledger;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;

/** A ledger that is not as it was written: where the damage was noticed, and what it is. */
public final class LedgerDamagedException extends IOException {

  private static final long serialVersionUID = 1L;

  /** What was noticed. */
  public enum Damage {
    /** The file does not begin as a ledger. */
    NOT_A_LEDGER,
    /** The file ends inside a line. */
    TRUNCATED,
    /** The file ends after a line, but without the closing record. */
    NOT_SEALED,
    /** A line's digest is not the one that the next line holds. */
    HASH,
    /** A line is not the JSON object of its kind: its fields, their order or their types. */
    JSON,
    /** A line does not fit the ones before. */
    SEQUENCE,
    /** The closing record's seal is not its digest. */
    SEAL,
    /** Something follows the closing record. */
    AFTER_THE_END;

    /** The name as words: "not sealed". */
    String words() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  private final long line;
  private final Damage damage;

  LedgerDamagedException(long line, Damage damage, String what) {
    this(line, damage, what, null);
  }

  LedgerDamagedException(long line, Damage damage, String what, Exception cause) {
    super("line " + line + " of the ledger: " + what + ".", cause);
    this.line = line;
    this.damage = damage;
  }

  /** The same, said of a file that nobody named. */
  public LedgerDamagedException in(Path file) {
    return new LedgerDamagedException(this, file);
  }

  private LedgerDamagedException(LedgerDamagedException noticed, Path file) {
    super(file + ": " + noticed.getMessage(), noticed);
    this.line = noticed.line;
    this.damage = noticed.damage;
  }

  /** The damaged line, counted from 1; with {@link Damage#HASH} the line whose digest differs. */
  public long line() {
    return line;
  }

  public Damage damage() {
    return damage;
  }
}
