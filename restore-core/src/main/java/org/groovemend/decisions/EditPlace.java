package org.groovemend.decisions;

import org.groovemend.ledger.LedgerEdit;

/**
 * What decisions look at in an edit, for those who hold many edits and not their words.
 *
 * @param number in the ledger, from 1
 * @param stage key of the stage
 * @param channel 0 based
 * @param start first changed frame
 * @param end one past the last
 * @param margin statistic less threshold; NaN if there is none
 */
public record EditPlace(
    long number, String stage, int channel, long start, long end, double margin) {

  public static EditPlace of(LedgerEdit edit) {
    return new EditPlace(
        edit.number(),
        edit.stage(),
        edit.channel(),
        edit.start(),
        edit.end(),
        edit.statistic() - edit.threshold());
  }
}
