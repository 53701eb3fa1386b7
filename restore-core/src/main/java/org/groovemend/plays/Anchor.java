package org.groovemend.plays;

/**
 * How much later a short passage of another play comes than that of the reference.
 *
 * @param seconds middle of the passage, of the reference
 * @param delaySeconds in time of the reference
 * @param doubtSeconds least standard deviation that this can have (Cramér and Rao)
 * @param likeness correlation of the two, aligned, -1 to 1
 * @param level mean square of the reference there
 */
record Anchor(
    double seconds, double delaySeconds, double doubtSeconds, double likeness, double level) {}
