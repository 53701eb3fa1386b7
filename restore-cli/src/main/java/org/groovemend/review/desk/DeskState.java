package org.groovemend.review.desk;

import org.groovemend.decisions.DecisionFile;

/**
 * How far the decisions are; arrays are not to be written to.
 *
 * @param revision rises with every change
 * @param file all that was decided
 * @param byVerdict edits by ordinal of their verdict
 * @param said edits of which a decision or a rule says something
 * @param lastStep what {@link DecisionDesk#back} would take back, or null
 */
public record DeskState(
    long revision, DecisionFile file, long[] byVerdict, long said, String lastStep) {}
