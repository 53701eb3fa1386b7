package org.groovemend.ledger;

/**
 * The last line.
 *
 * @param records lines of the ledger, this one included
 * @param seal SHA-256 of this line before its seal, lower-case hexadecimal; stands for the whole
 *     ledger
 */
public record LedgerClosing(long records, String seal) implements LedgerRecord {}
