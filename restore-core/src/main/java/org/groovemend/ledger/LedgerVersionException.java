package org.groovemend.ledger;

import java.io.IOException;

/** A ledger of a later format than this program knows. */
public final class LedgerVersionException extends IOException {

  private static final long serialVersionUID = 1L;

  private final long version;

  LedgerVersionException(long version) {
    super(
        "The ledger has format version "
            + version
            + ", this program reads up to "
            + LedgerHeader.VERSION
            + "; take the program that wrote it, or a later one.");
    this.version = version;
  }

  public long version() {
    return version;
  }
}
