/**
 * Contracts only: what a treatment is.
 *
 * <p>There are two kinds. A {@link org.groovemend.stage.RepairStage} finds places and says what to
 * take away there; every sample it does not name stays bit for bit. A {@link
 * org.groovemend.stage.SignalStage} may change any sample. Both work on segments cut at fixed frame
 * numbers, each with declared context on both sides, and keep nothing from one segment to the next:
 * hence the same result for any number of threads and any block length.
 */
package org.groovemend.stage;
