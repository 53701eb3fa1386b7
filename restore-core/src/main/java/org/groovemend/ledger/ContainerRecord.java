package org.groovemend.ledger;

import org.groovemend.audio.LayoutPiece;

/** One piece of the original file's layout, in file order. */
public record ContainerRecord(LayoutPiece piece) implements LedgerRecord {}
