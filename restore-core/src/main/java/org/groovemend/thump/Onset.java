package org.groovemend.thump;

/**
 * A place where something low begins.
 *
 * @param instant on the side's own grid
 * @param drop drop in the whitened energy of the low band when a ring from here on is taken out
 */
record Onset(long instant, double drop) {}
