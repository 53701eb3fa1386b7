/**
 * Which ledger descends from which: a copy of which some edits were taken back names the ledger it
 * was made of, by seal, and the decisions that say which edits, by digest. {@link
 * org.groovemend.lineage.Forebears} finds them, {@link org.groovemend.lineage.Lineage} walks from a
 * ledger back to the first treatment and says what holds on the way.
 */
package org.groovemend.lineage;
