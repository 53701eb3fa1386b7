/**
 * What was changed, and back again: the ledger of one restored side, its reversal and its check.
 *
 * <p>A ledger is a text file of JSON Lines (docs/reference/ledger-format.md). Each line holds the
 * SHA-256 (FIPS 180-4) of the line before, the last one is sealed with its own: a flipped bit, a
 * lost or moved line or a shortened file is noticed. The seal is a checksum and no signature:
 * whoever can write the file can also write a consistent other one, so the seal itself belongs into
 * a catalogue if forgery is to be noticed.
 *
 * <ul>
 *   <li>{@link org.groovemend.ledger.LedgerWriter} and {@link org.groovemend.ledger.LedgerReader}
 *       stream, in memory that does not grow with the number of edits.
 *   <li>{@link org.groovemend.ledger.Reversal} writes the original file again, byte for byte: it
 *       puts samples back, adds integers and copies bytes, and never recomputes a treatment.
 *   <li>{@link org.groovemend.ledger.Verifier} recomputes every digest and says what holds.
 * </ul>
 */
package org.groovemend.ledger;
